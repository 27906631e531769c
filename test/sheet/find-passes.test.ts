import { describe, expect, test } from 'vitest';
import { createRandom, randomWhole } from '../../src/base/random.ts';
import { NEEDLE } from '../../src/machine/codes.ts';
import { countDiffering, findPasses, gatherPasses, UNSEEN, unseenBeds } from '../../src/sheet/find-passes.ts';
import { readSeen } from '../../src/sheet/read-seen.ts';
import { statesAt } from '../../src/sheet/hand-moves.ts';
import { WORDS } from '../../src/words/words.ts';
import type { NeedleRef, Program } from '../../src/plan/step.ts';
import { knitPlan, randomPlans } from '../laws/random-sock.ts';

const SOCKS = randomPlans(77, 60).map((plan) => ({ plan, ...knitPlan(plan) }));

/** A needle bed of the test's own: letters by bed and needle, read straight from the program's steps. */
function bedsByHand({ steps }: Program): { readonly states: string; readonly carriage: string }[] {
  const needles = new Map<string, 'w' | 'h'>(), key = ({ bed, needle }: NeedleRef): string => `${bed}${needle}`, passes: { states: string; carriage: string }[] = [];
  let carriage = '';
  const note = (): void => { passes.push({ states: [...needles].map(([at, state]) => at + state).sort().join(' '), carriage }); };
  for (const step of steps) {
    switch (step.do) {
      case 'cast-on':
        for (const at of step.needles) needles.set(key(at), 'w');
        carriage = step.carriage;
        note();
        break;
      case 'knit':
        carriage = step.from === 'left' ? 'right' : 'left';
        note();
        break;
      case 'hold': needles.set(key(step.at), 'h'); break;
      case 'return': needles.set(key(step.at), 'w'); break;
      case 'transfer':
        step.moves.forEach(({ from, to }) => {
          needles.delete(key(from));
          if (!needles.has(key(to))) needles.set(key(to), 'w');
        });
        break;
      default:
    }
  }
  return passes;
}

describe('which pass the needles agree with', () => {
  test('the exact state of a pass is found, and those found are all passes that look the same, by a needle bed of the test\'s own', () => {
    const random = createRandom(5);
    let ambiguous = 0, alone = 0;
    for (const { program, trace } of SOCKS) {
      const byHand = bedsByHand(program);
      expect(byHand.length).toBe(trace.passes.length);
      for (let i = 0; i < 12; i++) {
        const pass = randomWhole(random, 0, trace.passes.length - 1), states = statesAt(trace, pass).slice();
        const isSideSaid = random() < 0.5, carriage = isSideSaid ? byHand[pass].carriage as 'left' | 'right' : null;
        const exact = findPasses(trace, { states, carriage, counter: null }, pass).filter((match) => countDiffering(match) === 0);
        expect(exact[0]).toMatchObject({ pass, moment: 'done' });
        const done = exact.filter(({ moment }) => moment === 'done').map((match) => match.pass).sort((a, b) => a - b);
        const alike = byHand.flatMap((other, at) => (other.states === byHand[pass].states && (!isSideSaid || other.carriage === carriage) ? [at] : []));
        expect(done).toEqual(alike);
        // Needles set for a pass, the carriage still to move: their states are the pass's, its side the one before.
        const ready = exact.filter(({ moment }) => moment === 'ready').map((match) => match.pass).sort((a, b) => a - b);
        expect(ready).toEqual(byHand.flatMap((other, at) => (
          at > 0 && byHand[at - 1].states !== other.states && other.states === byHand[pass].states && (!isSideSaid || byHand[at - 1].carriage === carriage) ? [at] : [])));
        if (alike.length > 1) ambiguous++; else alone++;
      }
    }
    expect(Math.min(ambiguous, alone)).toBeGreaterThan(50);
  });

  test('with one needle wrong the pass is among the nearest, and the needle is named', () => {
    const random = createRandom(6);
    for (const { trace } of SOCKS) {
      const pass = randomWhole(random, 0, trace.passes.length - 1), states = statesAt(trace, pass).slice();
      const carrying = [...states.keys()].filter((i) => states[i] !== NEEDLE.empty), wrong = carrying[randomWhole(random, 0, carrying.length - 1)];
      states[wrong] = states[wrong] === NEEDLE.held ? NEEDLE.working : NEEDLE.held;
      const matches = findPasses(trace, { states, carriage: null, counter: null }, pass), best = countDiffering(matches[0]);
      expect(best).toBeLessThanOrEqual(1);
      expect(matches.filter((match) => countDiffering(match) <= 1)).toContainEqual({ pass, moment: 'done', differ: [wrong], isOtherSide: false });
    }
  });

  test('among passes that look the same the counter decides, else the present place', () => {
    const { trace } = SOCKS.find(({ plan }) => plan.footPasses > 40)!;
    const feet = trace.passes.filter(({ section }) => section === 'foot').map(({ pass }) => pass), [middle, other] = [feet[20], feet[31]];
    const states = statesAt(trace, middle);
    expect(findPasses(trace, { states, carriage: null, counter: null }, middle)[0]).toMatchObject({ pass: middle });
    expect(findPasses(trace, { states, carriage: null, counter: other }, middle)[0]).toMatchObject({ pass: other });
    // The counter of the machine says 20 passes on, the carriage stands as after the pass before or after: one of those.
    const side = trace.passes[other].from;
    expect(Math.abs(findPasses(trace, { states, carriage: side, counter: other }, middle)[0].pass - other)).toBe(1);
  });

  test('needles that were not looked at disagree with nothing', () => {
    const { trace } = SOCKS[0], matches = findPasses(trace, { states: unseenBeds(trace.needlesPerBed), carriage: null, counter: null }, 7);
    expect(matches.every((match) => countDiffering(match) === 0)).toBe(true);
    expect(matches[0].pass).toBe(7);
  });

  test('of a subset of the needles those passes agree that agree on it, by a needle bed of the test\'s own, and no other', () => {
    const random = createRandom(8);
    let fewer = 0, same = 0;
    for (const { program, trace } of SOCKS) {
      const byHand = bedsByHand(program), { needlesPerBed } = trace, pass = randomWhole(random, 0, trace.passes.length - 1), states = unseenBeds(needlesPerBed);
      const letterAt = (at: number, i: number): string => {
        const key = `${i < needlesPerBed ? 'front' : 'back'}${(i % needlesPerBed) + 1}`;
        return byHand[at].states.split(' ').find((one) => one.slice(0, -1) === key)?.at(-1) ?? '.';
      };
      const subset = Array.from({ length: randomWhole(random, 1, 8) }, () => randomWhole(random, 0, 2 * needlesPerBed - 1));
      const CODES: Readonly<Record<string, number>> = { '.': NEEDLE.empty, w: NEEDLE.working, h: NEEDLE.held };
      for (const i of subset) states[i] = CODES[letterAt(pass, i)];
      const done = findPasses(trace, { states, carriage: null, counter: null }, pass).filter((match) => countDiffering(match) === 0 && match.moment === 'done').map((match) => match.pass).sort((a, b) => a - b);
      const alike = byHand.flatMap((_, at) => (subset.every((i) => letterAt(at, i) === letterAt(pass, i)) ? [at] : []));
      expect(done).toEqual(alike);
      if (alike.length < byHand.length) fewer++; else same++;
    }
    expect(Math.min(fewer, same)).toBeGreaterThan(3);
  });

  test('passes are gathered into runs', () => {
    expect(gatherPasses([3, 5, 7, 20, 21, 22])).toEqual([{ first: 3, last: 7, by: 2 }, { first: 20, last: 22, by: 1 }]);
    expect(gatherPasses([])).toEqual([]);
    expect(gatherPasses([9, 4])).toEqual([{ first: 4, last: 4, by: 1 }, { first: 9, last: 9, by: 1 }]);
  });
});

describe('what is typed', () => {
  const present = new Uint8Array(40);
  present.fill(NEEDLE.working, 22, 38);
  const options = { needlesPerBed: 20, numbers: 'middle', present, words: WORDS.en } as const;
  /** Letters of a bed, left to right. */
  const bed = (states: Uint8Array | null, which: 0 | 1): string => [...states!.subarray(20 * which, 20 * which + 20)].map((code) => (code === UNSEEN ? '?' : '.wh'[code])).join('');

  test('as a knitter would say it', () => {
    const { states } = readSeen('back: all; front: L4-R3 working, 3 held left, 4 held right', options);
    expect(bed(states, 1)).toBe('??wwwwwwwwwwwwwwww??');
    expect(bed(states, 0)).toBe('???hhhwwwwwwwhhhh???');
  });

  test('what is not named is not looked at, on a bed that is named too; the rest can be told', () => {
    expect(bed(readSeen('front: L3 empty', options).states, 0)).toBe('???????.????????????');
    expect(bed(readSeen('front: L9-R9 working', options).states, 0)).toBe(`?${'w'.repeat(18)}?`);
    expect(bed(readSeen('front: rest empty, 2 held right, L3-R4 working', options).states, 0)).toBe('.......wwwwwwwhh....');
    expect(bed(readSeen('vorn: L3 gehalten, Rest arbeitet', { ...options, words: WORDS.de }).states, 0)).toBe('wwwwwwwhwwwwwwwwwwww');
    expect(bed(readSeen('front: L3 empty; front: L2 held', options).states, 0)).toBe('???????.h???????????');
  });

  test.each(['L4-R3', 'L4 - R3', 'L4–R3', 'L4 — R3', 'L4..R3', 'L4 … R3', 'L4 to R3', 'l4  TO  r3', 'R3 to L4'])('%s is a range', (range) => {
    expect(bed(readSeen(`front: ${range} working`, options).states, 0)).toBe('??????wwwwwww???????');
  });

  test('a range in German, and by numbers', () => {
    expect(bed(readSeen('vorn: L4 bis R3 arbeiten', { ...options, words: WORDS.de }).states, 0)).toBe('??????wwwwwww???????');
    expect(bed(readSeen('front: 7 to 13 working, 2 held left', { ...options, numbers: 'left' }).states, 0)).toBe('????hhwwwwwww???????');
  });

  test('single needles, in any order, a bed not named not looked at, numbers from the left', () => {
    expect(bed(readSeen('front: 2 held left, R1 empty, L3-R4 working, L1 held', options).states, 0)).toBe('?????hhwwhwwww??????');
    expect(bed(readSeen('front: none', options).states, 0)).toBe('.'.repeat(20));
    expect(bed(readSeen('front: none', options).states, 1)).toBe('?'.repeat(20));
    expect(bed(readSeen('hinten: 3-5 arbeiten, 1 gehalten rechts', { ...options, numbers: 'left', words: WORDS.de }).states, 1)).toBe('??wwwh??????????????');
  });

  test.each([
    ['', 'Nothing is typed'], ['L3-R4 working', 'does not begin with a bed'], ['front: L3-R40 working', 'no needle l3-r40'], ['front: L3-R4 dancing', 'not understood'],
    ['front: L3-R4 working, 9 held left', 'beyond the end'], ['front: 3 held left', 'not understood'],
  ])('%s is refused, and says why', (text, why) => {
    const { states, problems } = readSeen(text, options);
    expect(states).toBeNull();
    expect(problems[0].message).toContain(why);
  });
});
