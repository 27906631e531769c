import { describe, expect, test } from 'vitest';
import { beginPlace, isPairDone, LONGEST_NOTE, noteAt, readPlace, stepBack, stepOn, withNote, writePlace } from '../../src/sheet/knit-place.ts';
import type { KnitPlace } from '../../src/sheet/knit-place.ts';
import { findProgress, roundOf } from '../../src/sheet/find-progress.ts';
import { listHeld, listMoves, nameNeedles, needlesIn, statesAt } from '../../src/sheet/hand-moves.ts';
import { listWork } from '../../src/sheet/list-work.ts';
import { NEEDLE } from '../../src/machine/codes.ts';
import { WORDS } from '../../src/words/words.ts';
import { buildProgram } from '../../src/plan/build-program.ts';
import { planSock } from '../../src/plan/plan-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { knitPlan, randomPlans } from '../laws/random-sock.ts';
import { knitProgram } from '../../src/machine/knit-program.ts';

const SOCK: SockFile = { name: 'A', gauge: { stitchesPer10cm: 12, rowsPer10cm: 17 }, counts: { stitches: 32, footPasses: 36 } };
const NOON = '2030-01-02T12:00:00.000Z', LATER = '2030-01-02T12:01:00.000Z';

describe('the place', () => {
  test('goes on stop by stop, over to the second sock, to the end of the pair; and all the way back', () => {
    const stops = 5, seen: KnitPlace[] = [beginPlace('a', SOCK)];
    while (!isPairDone(seen.at(-1)!, stops)) seen.push(stepOn(seen.at(-1)!, stops, seen.length === 1 ? NOON : LATER));
    // Five stops and the end of each sock.
    expect(seen.map(({ sock, stop }) => `${sock}.${stop}`)).toEqual(['1.0', '1.1', '1.2', '1.3', '1.4', '1.5', '2.0', '2.1', '2.2', '2.3', '2.4', '2.5']);
    expect(seen.at(-1)).toMatchObject({ startedAt: NOON, lastAt: LATER });
    expect(stepOn(seen.at(-1)!, stops, LATER)).toBe(seen.at(-1));
    let back = seen.at(-1)!;
    for (const { sock, stop } of [...seen].reverse().slice(1)) {
      back = stepBack(back, stops);
      expect(back).toMatchObject({ sock, stop });
    }
    expect(stepBack(back, stops)).toBe(back);
  });

  test('notes are kept in order, replaced, cut and taken out', () => {
    const place = withNote(withNote(withNote(beginPlace('a', SOCK), 9, 'nine'), 4, ' four '), 9, 'new nine');
    expect(place.notes).toEqual([{ stop: 4, text: 'four' }, { stop: 9, text: 'new nine' }]);
    expect(noteAt(place, 4)).toBe('four');
    expect(noteAt(withNote(place, 4, '  '), 4)).toBe('');
    expect(noteAt(withNote(place, 1, 'x'.repeat(900)), 1)).toHaveLength(LONGEST_NOTE);
  });

  test('is written and read back whole', () => {
    const place = withNote({ ...beginPlace('a', SOCK), sock: 2, stop: 57, second: 'mirrored', startedAt: NOON, lastAt: LATER }, 60, 'Weigh \u{1F9E6} “yarn”');
    expect(readPlace(writePlace(place), WORDS.en).place).toEqual(place);
  });

  test.each([
    ['{', null, 'not JSON'], ['[]', 'heelwrightPlace', 'no place file'], ['{"heelwrightPlace":2}', 'heelwrightPlace', 'newer version'],
    [JSON.stringify({ ...beginPlace('a', SOCK), stop: -1 }), 'stop', 'stop cannot be read'], [JSON.stringify({ ...beginPlace('a', SOCK), sock: 3 }), 'sock', 'sock cannot be read'],
    [JSON.stringify({ ...beginPlace('a', SOCK), notes: [{ stop: 1 }] }), 'notes', 'notes cannot be read'], [JSON.stringify({ ...beginPlace('a', SOCK), file: { gauge: {} } }), 'file.gauge.stitchesPer10cm', ''],
  ])('%s is refused by its field', (text, field, why) => {
    const { place, problems } = readPlace(text, WORDS.en);
    expect(place).toBeNull();
    expect(problems[0].field).toBe(field);
    expect(problems[0].message).toContain(why);
  });
});

describe('progress', () => {
  test('of random socks at every stop: what is done and what is left make the sock, part by part', () => {
    for (const plan of randomPlans(13, 20)) {
      const { program, trace } = knitPlan(plan), items = listWork(program, trace);
      for (const stop of [0, 1, 7, trace.passes.length - 1, trace.passes.length, items.length]) {
        const { sections, passesDone, passesLeft, leftInSection } = findProgress(items, stop);
        expect(passesDone).toBe(Math.min(Math.max(stop - 1, 0), trace.passes.length - 1));
        expect(passesDone + passesLeft).toBe(trace.passes.length - 1);
        expect(sections.reduce((sum, { stops }) => sum + stops, 0)).toBe(items.length);
        expect(sections.reduce((sum, { done }) => sum + done, 0)).toBe(stop);
        if (stop < items.length) expect(leftInSection).toBe(items.filter(({ index, section }) => index >= stop && section === items[stop].section).length);
      }
    }
  });

  // Common practice, no source: two passes make a round; 98 foot passes are 49 rounds.
  test('98 foot passes are 49 rounds; rows knitted flat and short rows are none', () => {
    const { plan } = planSock({ gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, counts: { stitches: 60, footPasses: 98 } }), { program, trace } = knitPlan(plan!), items = listWork(program, trace);
    const foot = items.filter(({ section }) => section === 'foot');
    expect(roundOf(foot[0])).toEqual({ round: 1, rounds: 49, half: 1 });
    expect(roundOf(foot[97])).toEqual({ round: 49, rounds: 49, half: 2 });
    expect(items.filter(({ section }) => ['leg', 'heel-in', 'heel-out', 'cast-on', 'closing'].includes(section)).every((item) => roundOf(item) === null)).toBe(true);
  });

  // Common practice, no source: before each pass one more needle away from the carriage goes into hold, down to the turn-down width.
  test('the held list of a heel grows needle by needle on both sides', () => {
    const { plan } = planSock({ gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, counts: { stitches: 60, footPasses: 98 }, heel: { turnDownWidth: 10 } }), program = buildProgram(plan!);
    const { trace } = knitProgram(program), items = listWork(program, trace!), down = items.filter(({ section }) => section === 'heel-in');
    expect(down).toHaveLength(20);
    down.forEach((item, i) => {
      expect(listMoves(item).map((move) => move.do)).toEqual(['hold', 'wrap']);
      const [held] = listHeld(trace!, item.index);
      expect(held.needles).toHaveLength(i + 1);
      expect(needlesIn(statesAt(trace!, item.index), held.bed, NEEDLE.working)).toHaveLength(29 - i);
    });
    const last = listHeld(trace!, down[19].index)[0];
    // A sock of 30 needles a bed stands on 76 to 105 of 180: L15 to R15. Ten in the middle still work.
    expect(nameNeedles(last.needles, 180, 'middle')).toBe('L15–L6, R6–R15');
    expect(nameNeedles(last.needles, 180, 'left')).toBe('76–85, 96–105');
    expect(nameNeedles([90, 92], 180, 'middle')).toBe('L1, R2');
  });
});
