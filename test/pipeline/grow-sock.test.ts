import { describe, expect, it } from 'vitest';
import { runToEnd } from '../../src/base/run-to-end.ts';
import { createGrower } from '../../src/pipeline/grow-sock.ts';
import { createSockHanger } from '../../src/pipeline/hang-sock.ts';
import { growAll, GROWING, knitOrThrow, LONG } from './growing-socks.ts';

const [, FILE] = GROWING[0];

describe('the order in which keyframes are made', () => {
  it('begins with the pass that is looked at, hangs up the whole making, and then goes outward', () => {
    const lookedAt = 25, { made } = growAll(FILE), hung = made.filter(({ quality }) => quality === 0).map(({ pass }) => pass);
    expect(made[0]).toMatchObject({ pass: lookedAt, quality: 0 });
    expect(made.slice(0, hung.length).every(({ quality }) => quality === 0)).toBe(true);
    const away = hung.map((pass) => Math.abs(pass - lookedAt));
    expect(away).toEqual([...away].sort((a, b) => a - b));
    const relaxed = made.slice(hung.length);
    expect(relaxed[0].pass).toBe(lookedAt);
    expect(relaxed.every(({ quality }) => quality === 1)).toBe(true);
    // None is made twice.
    expect(new Set(relaxed.map(({ pass }) => pass)).size).toBe(relaxed.length);
  });

  it('has shapes for every pass after those hung up, first and last included', () => {
    const sock = knitOrThrow(FILE), hanger = createSockHanger(sock), grower = createGrower(sock, hanger.growth, hanger.book);
    for (let task = grower.next({ pass: 30, isResting: false }); task?.quality === 0; task = grower.next({ pass: 30, isResting: false })) runToEnd(grower.make(task));
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
    // What was never looked at is hung up first.
    expect([task, between.isRelaxed]).toEqual([{ pass, quality: 0 }, false]);
    runToEnd(grower.make({ pass, quality: 0 }));
    expect(grower.next({ pass, isResting: true })).toEqual({ pass, quality: 2 });
    runToEnd(grower.make({ pass, quality: 2 }));
    const rest = hanger.hangAt(pass)!;
    expect(rest.isRelaxed).toBe(true);
    expect(grower.next({ pass, isResting: true })?.pass).not.toBe(pass);
  });
});
