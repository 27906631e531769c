import { describe, expect, test } from 'vitest';
import { checkSizes } from '../../src/choose/check-sizes.ts';
import { gradeSock } from '../../src/choose/grade-sock.ts';
import type { SizeRow } from '../../src/choose/size-table.ts';
import { writeSizesCsv, writeSizesText } from '../../src/choose/write-sizes.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { planSock } from '../../src/plan/plan-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';

/** Invented sizes. */
const size = (name: string, lengthMm: number, ballGirthMm: number, legLengthMm: number | null = null): SizeRow => ({ name, lengthMm, ballGirthMm, legLengthMm, isEstimate: false });
const SIZES = [size('small', 230, 212), size('middle', 262, 246), size('large', 290, 272, 180)];

const SOCK: SockFile = {
  name: 'Plain', gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, leg: { lengthMm: 130, kind: 'tube' }, ease: { girthPercent: -8 },
  foot: { lengthMm: 262, ballGirthMm: 246, heelDiagonalMm: 335, toes: 'square' }, toe: { closing: 'bind-off' },
  yarns: [{ name: 'Moss', metresPer100g: 400 }], counts: { anklePasses: 6 },
};

const plansOf = (file: SockFile, sizes = SIZES) => gradeSock(file, sizes).map(({ sock }) => sock!.plan);

describe('a sock in several sizes', () => {
  const rows = gradeSock(SOCK, SIZES);

  test('is each time the sock that the same choices give on that foot', () => {
    for (const [i, { sock, problems }] of rows.entries()) {
      const { lengthMm, ballGirthMm, name } = SIZES[i];
      const legMm = [Math.round(130 * 230 / 262), 130, 180][i];
      const alone: SockFile = { ...SOCK, name: `Plain, ${name}`, foot: { lengthMm, ballGirthMm, toes: 'square' }, leg: { kind: 'tube', lengthMm: legMm } };
      expect(problems).toEqual([]);
      expect(sock!.plan).toEqual(planSock(alone).plan);
      const knitted = knitSock(sock!.file).sock!;
      expect(sock!.passes).toBe(knitted.trace.passes.length - 1);
      expect(sock!.grams).toBe(knitted.yarn[0].grams);
    }
  });

  test('opens as a sock file of its own', () => {
    for (const { sock } of rows) expect(planSock(sock!.file).problems).toEqual([]);
    expect(rows.map(({ sock }) => sock!.file.foot?.heelDiagonalMm)).toEqual([undefined, undefined, undefined]);
  });

  test('drops counts by hand, and scales a leg that was one of them', () => {
    // 84 passes round are 42 rows: 100 mm, on a foot of 262 mm; 88 mm on one of 230 mm are 37 rows.
    const plans = plansOf({ ...SOCK, counts: { stitches: 76, legPasses: 84, footPasses: 100 } });
    expect(plans.map((plan) => plan.stitches)).toEqual(plansOf(SOCK).map((plan) => plan.stitches));
    expect(plans[0].legPasses).toBe(2 * 37);
    expect(plans[1].legPasses).toBe(84);
    expect(plans.map((plan) => plan.anklePasses)).toEqual([4, 4, 4]);
  });

  test('keeps choices by hand at their share of the heel', () => {
    const bySock = (heel: SockFile['heel'], toe: SockFile['toe'] = {}) => plansOf({ ...SOCK, ...(heel ? { heel } : {}), toe });
    const { heelStitches: own } = planSock(SOCK).plan!;
    for (const plan of bySock({ turnDownWidth: 6, plateauPasses: 4 }, { tipStitches: 14, passesPerDecrease: 2 })) {
      expect(Math.abs(plan.turnDownWidth - 6 * plan.heelStitches / own)).toBeLessThanOrEqual(1);
      expect(Math.abs(plan.plateauPasses - 4 * plan.heelStitches / own)).toBeLessThanOrEqual(1);
      expect(Math.abs(plan.toeTipStitches - 14 * plan.heelStitches / own)).toBeLessThanOrEqual(1);
      expect(plan.passesPerDecrease).toBe(2);
    }
    expect(bySock({ turnDownWidth: 6 }).map((plan) => plan.turnDownWidth)).toContain(6);
    // A turn-down at the very limit stays within it, however small the sock.
    expect(plansOf({ ...SOCK, heel: { turnDownWidth: own - 2 } }, [size('tiny', 110, 100)])[0].turnDownWidth).toBeLessThanOrEqual(12);
  });
});

/** Shares as for turn-down and tip; a schedule's decreases are as many as lead to its tip. */
test('a wide heel, a slant and a schedule go into every size', () => {
  const own: SockFile = { ...SOCK, heel: { stitches: 38 }, toe: { slantStitches: 4, schedule: [{ passes: 4, times: 6 }, { passes: 2, times: 6 }] } }, { plan: base } = planSock(own);
  for (const { sock, problems } of gradeSock(own, [size('child', 170, 165), ...SIZES])) {
    expect(problems).toEqual([]);
    const plan = sock!.plan, scaled = (count: number): number => count * plan.stitches / base!.stitches;
    for (const name of ['heelStitches', 'toeSlantStitches', 'toeTipStitches'] as const) expect(Math.abs(plan[name] - scaled(base![name])), name).toBeLessThanOrEqual(1.5);
    expect(Math.abs(plan.toeDecreases - scaled(base!.toeDecreases))).toBeLessThanOrEqual(2);
    expect(sock!.file.toe?.schedule?.map(({ passes }) => passes)).toEqual([4, 2]);
  }
});

describe('an impossible row', () => {
  const sizes = [SIZES[0], size('slip', 26, 246), size('too wide', 262, 449), size('short', 82, 300), size('no number', NaN, 200), SIZES[2]];
  const rows = gradeSock({ ...SOCK, machine: { needlesPerBed: 60 } }, sizes);

  test('says so at its field, and the others stand', () => {
    expect(rows.map(({ sock }) => sock !== null)).toEqual([true, false, false, false, false, true]);
    expect(rows.map(({ problems }) => problems.map(({ field }) => field))).toEqual([
      [], ['sizes.1.lengthMm'], ['sizes.2.ballGirthMm', 'sizes.2.ballGirthMm'], ['sizes.3.ballGirthMm', 'sizes.3.lengthMm'], ['sizes.4.lengthMm'], [],
    ]);
  });

  test('and is found before any sock is planned', () => {
    expect(checkSizes(sizes).map(({ field }) => field)).toEqual(['sizes.1.lengthMm', 'sizes.2.ballGirthMm', 'sizes.3.ballGirthMm', 'sizes.4.lengthMm']);
    expect(checkSizes(SIZES)).toEqual([]);
  });

  test('a gauge that cannot be is a fault of the gauge in every row', () => {
    for (const { sock, problems } of gradeSock({ ...SOCK, gauge: { stitchesPer10cm: 3, rowsPer10cm: 42 } }, SIZES)) {
      expect(sock).toBeNull();
      expect(problems.map(({ field }) => field)).toEqual(['gauge.stitchesPer10cm']);
    }
  });
});

/** RFC 4180, section 2: the grammar's rules, read back by a reader of its own. */
function readCsv(text: string): string[][] {
  const lines: string[][] = [];
  let cells: string[] = [], at = 0;
  while (at < text.length) {
    const quoted = /"((?:[^"]|"")*)"/y, plain = /[^",\r\n]*/y;
    quoted.lastIndex = plain.lastIndex = at;
    const found = quoted.exec(text);
    const cell = found ?? plain.exec(text)!;
    cells.push(found ? found[1].replaceAll('""', '"') : cell[0]);
    at += cell[0].length;
    if (text.startsWith('\r\n', at)) {
      lines.push(cells);
      cells = [];
      at += 2;
    } else if (text[at] === ',') at++;
    else throw new Error(`neither a comma nor the end of a line at ${at}: ${JSON.stringify(text.slice(at, at + 20))}`);
  }
  return lines;
}

describe('a table of sizes on paper', () => {
  const named = [size('8, "wide"\r\nand so on', 262, 246), SIZES[0], size('slip', 26, 246)];
  const rows = gradeSock(SOCK, named);

  test('as CSV reads back cell by cell', () => {
    const [heading, ...lines] = readCsv(writeSizesCsv(rows));
    expect(lines).toHaveLength(3);
    for (const line of lines) expect(line).toHaveLength(heading.length);
    const cell = (line: number, name: string): string => lines[line][heading.indexOf(name)];
    expect(lines.map(([name]) => name)).toEqual(named.map(({ name }) => name));
    const { plan, metres, grams, passes } = rows[1].sock!;
    for (const [name, value] of [
      ['stitches', plan.stitches], ['turn-down width', plan.turnDownWidth], ['leg passes', plan.legPasses], ['ankle passes', 6], ['heel passes', plan.heelPasses],
      ['foot passes', plan.footPasses], ['toe passes', plan.toePasses], ['tip stitches', plan.toeTipStitches], ['passes in all', passes],
    ] as const) expect(cell(1, name), name).toBe(String(value));
    expect(Number(cell(1, 'yarn of a pair m'))).toBeCloseTo(2 * metres, 0);
    expect(Number(cell(1, 'yarn of a sock g'))).toBeCloseTo(grams, 0);
    expect(cell(2, 'stitches')).toBe('');
    expect(cell(2, 'problems')).toContain('60 to 400 mm');
  });

  test('as text has a line a size, columns in line, and its problems below', () => {
    const lines = writeSizesText(gradeSock(SOCK, SIZES)).split('\n');
    expect(lines[0]).toMatch(/^size +foot +girth +st /);
    const ends = (line: string): number => line.indexOf(' ', line.search(/\d/));
    expect(new Set(lines.slice(1, 4).map(ends)).size).toBe(1);
    expect(writeSizesText(rows)).toMatch(/\nslip: Foot length of size slip: 26 mm/);
  });
});
