import { describe, expect, it } from 'vitest';
import { runToEnd } from '../../src/base/run-to-end.ts';
import { createGrower } from '../../src/pipeline/grow-sock.ts';
import type { KeyTask } from '../../src/pipeline/grow-sock.ts';
import { createSockHanger } from '../../src/pipeline/hang-sock.ts';
import { growAll, GROWING, knitOrThrow, LONG } from './growing-socks.ts';

const [, FILE] = GROWING[0];

describe('the order in which keyframes are made', () => {
  it('begins with the pass that is looked at, near rest too, hangs up the whole making, and then goes outward', () => {
    const lookedAt = 25, { made } = growAll(FILE), hung = made.filter(({ quality }) => quality === 0).map(({ pass }) => pass);
    expect(made[0]).toMatchObject({ pass: lookedAt, quality: 0 });
    expect(made[1]).toMatchObject({ pass: lookedAt, quality: 1 });
    expect(made.slice(2, hung.length + 1).every(({ quality }) => quality === 0)).toBe(true);
    const away = hung.map((pass) => Math.abs(pass - lookedAt));
    expect(away).toEqual([...away].sort((a, b) => a - b));
    const relaxed = [made[1], ...made.slice(hung.length + 1)];
    expect(relaxed.every(({ quality }) => quality === 1)).toBe(true);
    // None is made twice.
    expect(new Set(relaxed.map(({ pass }) => pass)).size).toBe(relaxed.length);
  });

  it('has shapes for every pass after those hung up, first and last included', () => {
    const sock = knitOrThrow(FILE), hanger = createSockHanger(sock), grower = createGrower(sock, hanger.growth, hanger.book);
    const next = (): KeyTask | null => grower.next({ pass: 30, isResting: false });
    for (let task = next(); task !== null && (task.quality === 0 || task.pass === 30); task = next()) runToEnd(grower.make(task));
    for (let pass = 0; pass <= hanger.growth.lastPass; pass++) expect(hanger.hangAt(pass)).not.toBeNull();
    expect(grower.progress()).toBe(0);
  });

  it('ends, with all of the making close enough, and with fewer keyframes than passes', () => {
    const { hanger, grower } = growAll(LONG);
    expect(hanger.book.keyframes.every(({ quality }) => quality === 1)).toBe(true);
    expect(hanger.book.keyframes.length).toBeLessThan(hanger.growth.lastPass);
    expect(grower.progress()).toBe(1);
    expect(grower.next({ pass: 3, isResting: false })).toBeNull();
  });

  it('where an eye rests, the shape at rest comes next, goes on from the one between, and is told from it', () => {
    const { hanger, grower } = growAll(LONG);
    const pass = Array.from({ length: hanger.growth.lastPass }, (_, p) => p).find((p) => p > 20 && hanger.pairAt(p)![0] !== hanger.pairAt(p)![1])!;
    const between = hanger.hangAt(pass)!, task = grower.next({ pass, isResting: true });
    expect([task, between.isRelaxed, between.isRough]).toEqual([{ pass, quality: 2 }, false, false]);
    runToEnd(grower.make({ pass, quality: 2 }));
    const rest = hanger.hangAt(pass)!;
    expect(rest.isRelaxed).toBe(true);
    expect(grower.next({ pass, isResting: true })?.pass).not.toBe(pass);
  });
});
