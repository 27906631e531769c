import { describe, expect, test } from 'vitest';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { withField } from '../../src/plan/with-field.ts';
import { findLongestLeg } from '../../src/sheet/longest-leg.ts';
import { WORDS } from '../../src/words/words.ts';

const SOCK: SockFile = { gauge: { stitchesPer10cm: 12, rowsPer10cm: 17 }, leg: { lengthMm: 60 }, counts: { stitches: 32, footPasses: 36 }, heel: { turnDownWidth: 8 }, yarns: [{ name: 'Blue' }] };
const metresOf = (file: SockFile): number[] => knitSock(file).sock!.yarn.map(({ metres }) => metres);

/** The longest by trying every one, from one that is much too long. */
function longestByTrying(file: SockFile, field: string, top: number, step: number, lasts: (metres: readonly number[]) => boolean): number | null {
  for (let value = top; value >= 0; value -= step) {
    const { sock } = knitSock(withField(file, field, value));
    if (sock !== null && lasts(sock.yarn.map(({ metres }) => metres))) return value;
  }
  return null;
}

describe('yarn in hand to the longest leg', () => {
  test.each([
    ['a flat leg by its length', SOCK, 'leg.lengthMm', 1], ['a tube leg by its passes', { ...SOCK, leg: { kind: 'tube' }, counts: { ...SOCK.counts, legPasses: 20 } }, 'counts.legPasses', 2],
    ['a flat leg by its passes', { ...SOCK, counts: { ...SOCK.counts, legPasses: 20 } }, 'counts.legPasses', 1],
  ] as const)('%s: the one that trying every leg gives', (_, file, field, step) => {
    const [need] = metresOf(file), inHand = 2 * need * 1.5;
    const { fit } = findLongestLeg(file, { metres: [inHand], socks: 2, margin: 0.1 }, WORDS.en);
    expect(fit!.value).toBe(longestByTrying(file, field, fit!.value + 40 * step, step, ([metres]) => 2 * metres <= 0.9 * inHand));
    expect(fit!.field).toBe(field);
    expect(fit!.metres[0]).toBeCloseTo(2 * metresOf(fit!.file)[0], 9);
    expect(fit!.legPasses).toBe(knitSock(fit!.file).sock!.plan.legPasses);
  });

  test('of several yarns the one that was weighed decides', () => {
    const file: SockFile = { ...SOCK, yarns: [{ name: 'Leg', from: 'leg' }, { name: 'Heel', from: 'heel' }, { name: 'Foot', from: 'foot' }] };
    const [leg] = metresOf(file);
    const { fit } = findLongestLeg(file, { metres: [2 * leg * 2, null, null], socks: 2, margin: 0 }, WORDS.en);
    expect(fit!.value).toBe(longestByTrying(file, 'leg.lengthMm', fit!.value + 60, 1, ([metres]) => 2 * metres <= 2 * leg * 2));
    // The heel's own yarn does not hang on the leg: as much as it takes lasts for any leg, a metre less for none.
    const heel = metresOf(file)[1];
    expect(findLongestLeg(file, { metres: [null, 2 * heel + 0.01, null], socks: 2, margin: 0 }, WORDS.en).fit!.value).toBe(800);
    const short = findLongestLeg(file, { metres: [null, 2 * heel - 1, null], socks: 2, margin: 0 }, WORDS.en);
    expect(short.fit).toBeNull();
    expect(short.problems[0].message).toContain(`Heel does not last even for the shortest leg: that takes ${Math.ceil(2 * heel)} m`);
  });

  test('a yarn that comes in at several places is one: weighed once, for all of them', () => {
    const file: SockFile = { ...SOCK, yarns: [{ name: 'Blue', colour: '#0000ff', from: 'leg' }, { name: 'Red', colour: '#ff0000', from: 'heel' }, { name: 'Blue', colour: '#0000ff', from: 'foot' }] };
    const [leg, , foot] = metresOf(file), inHand = 2 * (1.5 * leg + foot);
    const { fit } = findLongestLeg(file, { metres: [inHand, null, null], socks: 2, margin: 0 }, WORDS.en);
    expect(fit!.value).toBe(longestByTrying(file, 'leg.lengthMm', fit!.value + 60, 1, ([first, , last]) => 2 * (first + last) <= inHand));
    const [inLeg, inHeel, inFoot] = metresOf(fit!.file);
    expect(fit!.metres).toEqual([expect.closeTo(2 * (inLeg + inFoot), 9), expect.closeTo(2 * inHeel, 9), 0]);
  });

  test('stripes too', () => {
    const file: SockFile = { ...SOCK, yarns: [{ name: 'One', stripePasses: 4 }, { name: 'Two', stripePasses: 2 }] };
    const [one, two] = metresOf(file), inHand = [2 * one * 1.3, 2 * two * 1.4];
    const { fit } = findLongestLeg(file, { metres: inHand, socks: 2, margin: 0.05 }, WORDS.en);
    const lasts = (metres: readonly number[]): boolean => metres.every((need, yarn) => 2 * need <= 0.95 * inHand[yarn]);
    expect(lasts(metresOf(fit!.file))).toBe(true);
    expect(longestByTrying(file, 'leg.lengthMm', fit!.value + 60, 1, lasts)! - fit!.value).toBeLessThanOrEqual(40);
  });
});
