import { deflateRawSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/base/random.ts';
import { crc32 } from '../../src/base/crc32.ts';
import { readBase64Url, writeBase64Url } from '../../src/base/base64url.ts';
import { readSockLink, writeSockLink } from '../../src/main/sock-link.ts';
import { planSock } from '../../src/plan/plan-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { writeSock } from '../../src/plan/write-sock.ts';
import { LONGEST_LINK_TEXT, writeLinkText } from '../../src/sheet/link-text.ts';
import { randomSockFile } from '../plan/random-sock-file.ts';

const PAGE = 'https://example.org/some/folder/';
const SOCK: SockFile = { heelwright: 1, name: 'Söckchen für Jürgen 🧦', gauge: { stitchesPer10cm: 12, rowsPer10cm: 17 }, counts: { stitches: 32, footPasses: 36 } };

async function linkOf(file: SockFile): Promise<string> {
  const { link } = await writeSockLink(file, `${PAGE}#panel`);
  return link!;
}

const hashOf = (link: string): string => new URL(link).hash;
const pack = (json: string): string => `#sock=${writeLinkText(new Uint8Array(deflateRawSync(json)))}`;

// RFC 4648, section 10, and the check value of CRC-32/ISO-HDLC in the catalogue of parametrised CRC algorithms.
describe('letters and checksum', () => {
  it.each([['', ''], ['f', 'Zg'], ['fo', 'Zm8'], ['foo', 'Zm9v'], ['foob', 'Zm9vYg'], ['fooba', 'Zm9vYmE'], ['foobar', 'Zm9vYmFy']])('%j is %j', (plain, coded) => {
    expect(writeBase64Url(new TextEncoder().encode(plain))).toBe(coded);
    expect(new TextDecoder().decode(readBase64Url(coded)!)).toBe(plain);
  });

  it('reads only what can have been written', () => {
    for (const text of ['A', 'Zh', 'Zm9', 'Zm+v', 'Zm9v=', 'Zm 9', 'é']) expect(readBase64Url(text), text).toBeNull();
  });

  it('agrees with Node about random bytes', () => {
    const random = createRandom(7);
    for (let length = 0; length < 70; length++) {
      const bytes = Uint8Array.from({ length }, () => Math.floor(256 * random()));
      expect(writeBase64Url(bytes)).toBe(Buffer.from(bytes).toString('base64url'));
    }
  });

  it('the checksum of 123456789 is cbf43926', () => {
    expect(crc32(new TextEncoder().encode('123456789')).toString(16)).toBe('cbf43926');
  });
});

describe('a link', () => {
  it('gives back any sock that can be knitted, and stands behind the page\'s own address', async () => {
    const random = createRandom(20);
    let socks = 0;
    for (let i = 0; i < 300; i++) {
      const file = randomSockFile(random);
      if (planSock(file).plan === null) continue;
      socks++;
      const link = await linkOf(file);
      expect(link.startsWith(`${PAGE}#sock=a`)).toBe(true);
      expect(link.slice(PAGE.length)).toMatch(/^#sock=[\w-]+$/);
      expect(await readSockLink(hashOf(link))).toEqual({ kind: 'sock', file });
    }
    expect(socks).toBeGreaterThan(100);
  });

  it('keeps a name in any script', async () => {
    expect(await readSockLink(hashOf(await linkOf(SOCK)))).toEqual({ kind: 'sock', file: SOCK });
  });

  it('damaged in any one letter is refused', async () => {
    const hash = hashOf(await linkOf(SOCK)), start = '#sock='.length;
    for (let i = start; i < hash.length; i++) {
      for (const letter of 'Ab0-_.%') {
        if (letter === hash[i]) continue;
        const outcome = await readSockLink(hash.slice(0, i) + letter + hash.slice(i + 1));
        expect(outcome?.kind, `${letter} for letter ${i - start}`).toBe('fault');
      }
    }
  }, 60_000);

  it('with a letter lost, doubled, or cut off anywhere is refused', async () => {
    const hash = hashOf(await linkOf(SOCK)), start = '#sock='.length;
    for (let i = start; i < hash.length; i++) {
      for (const damaged of [hash.slice(0, i) + hash.slice(i + 1), hash.slice(0, i) + hash[i] + hash.slice(i), hash.slice(0, i)]) {
        if (damaged === hash) continue;
        expect((await readSockLink(damaged))?.kind, damaged.slice(start)).toBe('fault');
      }
    }
  }, 60_000);

  it('tells what is wrong with it', async () => {
    const hash = hashOf(await linkOf(SOCK));
    expect(await readSockLink('#panel')).toBeNull();
    expect(await readSockLink('#sock=')).toEqual({ kind: 'fault', fault: 'damaged' });
    expect(await readSockLink(hash.replace('=a', '=b'))).toEqual({ kind: 'fault', fault: 'newer' });
    expect(await readSockLink(`#sock=a${'A'.repeat(LONGEST_LINK_TEXT)}`)).toEqual({ kind: 'fault', fault: 'too-long' });
    expect(await readSockLink(pack('{"hell":1}'))).toMatchObject({ kind: 'refused', problems: [{ field: 'hell' }, { field: 'gauge' }, {}, {}] });
    expect(await readSockLink(pack('not JSON'))).toMatchObject({ kind: 'refused', problems: [{ field: null }] });
    expect(await readSockLink(pack(JSON.stringify({ ...SOCK, machine: { needlesPerBed: 20 } })))).toMatchObject({ kind: 'refused' });
    expect(await readSockLink(pack(JSON.stringify({ ...SOCK, heelwright: 2, lace: {} })))).toMatchObject({ kind: 'refused', problems: [{ field: 'heelwright', value: '2' }] });
  });

  it('that would unpack to more than a sock file may have is refused', async () => {
    const bomb = pack(' '.repeat(5_100_000));
    expect(bomb.length).toBeLessThan(LONGEST_LINK_TEXT);
    expect(await readSockLink(bomb)).toEqual({ kind: 'fault', fault: 'damaged' });
  });

  it('of a sock whose name is a book is not made', async () => {
    const random = createRandom(3), name = Array.from({ length: 9000 }, () => String.fromCharCode(33 + Math.floor(90 * random()))).join('');
    expect(await writeSockLink({ ...SOCK, name }, PAGE)).toEqual({ link: null, fault: 'too-long' });
  });

  it('is the same for the same sock, whatever the order of its fields', async () => {
    const { name, gauge, ...others } = SOCK;
    expect(await linkOf({ ...others, gauge, ...(name === undefined ? {} : { name }) })).toBe(await linkOf(JSON.parse(writeSock(SOCK)) as SockFile));
  });
});
