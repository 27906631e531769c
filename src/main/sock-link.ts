import type { Problem } from '../base/problem.ts';
import { planSock } from '../plan/plan-sock.ts';
import { MOST_BYTES, readSock } from '../plan/read-sock.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { writeSock } from '../plan/write-sock.ts';
import { LONGEST_LINK_TEXT, readLinkText, writeLinkText } from '../sheet/link-text.ts';
import type { LinkFault } from '../sheet/link-text.ts';

const KEY = '#sock=';

/** What a link holds: a sock that can be knitted, or why there is none. */
export type LinkOutcome =
  | { readonly kind: 'sock'; readonly file: SockFile }
  | { readonly kind: 'fault'; readonly fault: LinkFault | 'cannot-unpack' }
  /** It holds a file, but no sock that can be knitted. */
  | { readonly kind: 'refused'; readonly problems: readonly Problem[] };

export type LinkText = { readonly link: string; readonly fault: null } | { readonly link: null; readonly fault: 'too-long' | 'cannot-pack' };

/** The page's own address with the whole sock behind its hash, which no server is ever sent. */
export async function writeSockLink(file: SockFile, page: string): Promise<LinkText> {
  if (typeof CompressionStream === 'undefined') return { link: null, fault: 'cannot-pack' };
  const json = new TextEncoder().encode(JSON.stringify(JSON.parse(writeSock(file))));
  const packed = await pass(json, new CompressionStream('deflate-raw'), Infinity);
  const text = packed === null ? '' : writeLinkText(packed);
  if (text === '' || text.length > LONGEST_LINK_TEXT) return { link: null, fault: 'too-long' };
  return { link: page.replace(/#.*$/s, '') + KEY + text, fault: null };
}

/** Null for a hash that is no sock's. */
export async function readSockLink(hash: string): Promise<LinkOutcome | null> {
  if (!hash.startsWith(KEY)) return null;
  const { packed, fault } = readLinkText(hash.slice(KEY.length));
  if (packed === null) return { kind: 'fault', fault };
  if (typeof DecompressionStream === 'undefined') return { kind: 'fault', fault: 'cannot-unpack' };
  const json = await pass(packed, new DecompressionStream('deflate-raw'), MOST_BYTES);
  if (json === null) return { kind: 'fault', fault: 'damaged' };
  const { file, problems } = readSock(new TextDecoder().decode(json));
  if (file === null) return { kind: 'refused', problems };
  const planned = planSock(file);
  return planned.plan === null ? { kind: 'refused', problems: planned.problems } : { kind: 'sock', file };
}

/** What comes out at a stream's other end; null where it breaks off, or brings more than `most` bytes: a short link can unpack to gigabytes. */
async function pass(bytes: Uint8Array<ArrayBuffer>, stream: CompressionStream | DecompressionStream, most: number): Promise<Uint8Array<ArrayBuffer> | null> {
  const chunks: Uint8Array[] = [];
  let length = 0;
  try {
    const reader = new Blob([bytes]).stream().pipeThrough(stream).getReader();
    for (let next = await reader.read(); !next.done; next = await reader.read()) {
      chunks.push(next.value);
      length += next.value.length;
      if (length <= most) continue;
      await reader.cancel();
      return null;
    }
  } catch { return null; }
  const all = new Uint8Array(length);
  let at = 0;
  for (const chunk of chunks) {
    all.set(chunk, at);
    at += chunk.length;
  }
  return all;
}
