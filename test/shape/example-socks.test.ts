import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { examples } from '../../src/main/first-sock.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import { readSock } from '../../src/plan/read-sock.ts';
import type { PoseName } from '../../src/shape/pose.ts';

const POSES: readonly PoseName[] = ['flat', 'tube', 'beds', 'worn'];

describe('the example socks', () => {
  it('are all in the list of the page, and only they', () => {
    expect(examples().map(({ file }) => file).sort()).toEqual(readdirSync('public/socks').map((name) => `socks/${name}`).sort());
  });

  it.each(examples().map(({ file }) => file))('%s is knitted without a problem and comes to rest in every pose', (file) => {
    const read = readSock(readFileSync(`public/${file}`, 'utf8'));
    expect(read.problems).toEqual([]);
    const { sock, problems } = knitSock(read.file!);
    expect(problems).toEqual([]);
    for (const pose of POSES) expect(poseSock(sock!, pose).pose.status, pose).toBe('converged');
  }, 120_000);
});
