import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { perInchToPer10cm } from '../../src/base/unit.ts';
import type { SockReport } from '../../src/choose/report-sock.ts';
import { reportOnSock } from '../../src/choose/report-sock.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const FOLDER = mkdtempSync(join(tmpdir(), 'report-'));
afterAll(() => { rmSync(FOLDER, { recursive: true, force: true }); });

/** The command as a person runs it; the time is this process's guard against a hang, not a check. */
function runReport(args: readonly string[], input?: string): { json: SockReport; status: number | null; stderr: string } {
  const { stdout, stderr, status } = spawnSync('npm', ['run', '-s', 'report', '--', ...args], {
    cwd: ROOT, encoding: 'utf8', timeout: 60_000, maxBuffer: 1e8, ...(input === undefined ? {} : { input }),
  });
  return { json: JSON.parse(stdout) as SockReport, status, stderr };
}

function saved(name: string, text: string): string {
  const path = join(FOLDER, name);
  writeFileSync(path, text);
  return path;
}

/** The clock of the poses: every look at it is five milliseconds after the last. */
function fiveMilliseconds(): () => number {
  let now = 0;
  return () => (now += 5);
}

const SMALL = JSON.stringify({
  gauge: { stitchesPer10cm: 20, rowsPer10cm: 28 },
  leg: { kind: 'tube' },
  counts: { stitches: 24, legPasses: 8, footPasses: 16 },
  yarns: [{ name: 'Grey' }],
});

/** Common practice, no source: the sock of test/outside/plan-common-practice.test.ts, as counts. */
const COMMON = JSON.stringify({
  heelwright: 1,
  gauge: { stitchesPer10cm: perInchToPer10cm(8), rowsPer10cm: perInchToPer10cm(10) },
  counts: { stitches: 64, legPasses: 50, anklePasses: 4, footPasses: 98 },
});

const TOP_KEYS = ['plan', 'knit', 'fabric', 'poses', 'measures', 'yarn', 'yarnLaid', 'fit', 'advice', 'compare', 'grade', 'tolerance', 'problems'];
const PLAN_KEYS = ['stitches', 'heelStitches', 'turnDownWidth', 'legPasses', 'anklePasses', 'heelPasses', 'footPasses', 'toePasses', 'toeTipStitches', 'toeDecreases'];
const MEASURE_KEYS = [
  'footLengthMm', 'heelDepthMm', 'heelDiagonalMm', 'heelTipGirthMm', 'throatToHeelMm', 'footGirthMm',
  'toeLengthMm', 'legLengthMm', 'toeTipWidthMm', 'legFootAngleDeg',
];

/** As the README's table has them. */
const STRETCH_KEYS = [...readFileSync(new URL('../../README.md', import.meta.url), 'utf8').matchAll(/^\| `(\w+Percent)` \|/gm)].map(([, name]) => name);

/** As the README's table of the yarn's parts has them. */
const PART_KEYS = [...readFileSync(new URL('../../README.md', import.meta.url), 'utf8').matchAll(/^\| `parts\.(\w+)` \|/gm)].map(([, name]) => name);

const keysOf = (value: object | null | undefined): string[] => Object.keys(value ?? {}).sort();

describe('the report on a sock', () => {
  test('has exactly its keys', () => {
    const { json, exitCode } = reportOnSock(SMALL, { poses: ['flat', 'tube'] }, fiveMilliseconds());
    expect(exitCode).toBe(0);
    expect(keysOf(json)).toEqual([...TOP_KEYS].sort());
    expect(keysOf(json.plan)).toEqual([...PLAN_KEYS].sort());
    expect(keysOf(json.knit)).toEqual(['decreases', 'loops', 'passes', 'transfers', 'wraps']);
    expect(keysOf(json.fabric)).toEqual(['boundaries', 'cells', 'edges', 'euler', 'vertices']);
    expect(keysOf(json.poses)).toEqual(['flat', 'tube']);
    expect(keysOf(json.measures)).toEqual(['flat', 'rest', 'tube']);
    for (const measures of Object.values(json.measures!)) expect(keysOf(measures)).toEqual([...MEASURE_KEYS].sort());
    for (const pose of Object.values(json.poses!)) {
      expect(keysOf(pose)).toEqual(['milliseconds', 'residual', 'status', 'stretch']);
      expect(keysOf(pose.stretch)).toEqual([...STRETCH_KEYS].sort());
      for (const percent of Object.values(pose.stretch) as number[]) expect(Number.isFinite(percent)).toBe(true);
      expect(pose.stretch.width5Percent).toBeLessThanOrEqual(pose.stretch.widthMedianPercent);
      expect(pose.stretch.widthMedianPercent).toBeLessThanOrEqual(pose.stretch.width95Percent);
      expect(pose.milliseconds).toBe(5);
    }
    expect(json.yarn!.map(keysOf)).toEqual([['grams', 'metres', 'name']]);
    expect(json.yarnLaid!.map(keysOf)).toEqual([['grams', 'lengths', 'metres', 'name', 'parts']]);
    expect(json.yarnLaid!.map(({ parts }) => keysOf(parts))).toEqual([[...PART_KEYS].sort()]);
    expect(json.problems).toEqual([]);
    // Throat and angle are no rest measures; every other number is one.
    expect(json.measures!.rest).toMatchObject({ throatToHeelMm: null, legFootAngleDeg: null });
    // JSON would write what is not finite as null, which stands for "does not exist".
    const { rest, flat, tube } = json.measures!;
    const numbers = [rest, flat!, tube!].flatMap((measures) => Object.values(measures) as (number | null)[]).filter((value) => value !== null);
    expect(numbers.filter((value) => !Number.isFinite(value))).toEqual([]);
    // Ten measures three times, less the rest's throat and angle.
    expect(numbers).toHaveLength(28);
  }, 60_000);

  test('without poses has rest measures only', () => {
    const { json } = reportOnSock(SMALL, { poses: [] }, fiveMilliseconds());
    expect(json.poses).toEqual({});
    expect(keysOf(json.measures)).toEqual(['rest']);
    expect(json.yarnLaid).toBeNull();
  });

  // Common practice, no source; the sums by hand: 50 + 2 + 4 + 44 + 98 + 42 passes; H - W wraps;
  // transfers 32 to gather, 32 to turn, 8 at each of 11 decreases; 8,440 loops with the cast-on.
  test('counts the common-practice sock', () => {
    const { json } = reportOnSock(COMMON, { poses: [] }, fiveMilliseconds());
    expect(json.plan).toEqual({
      stitches: 64, heelStitches: 32, turnDownWidth: 10, legPasses: 50, anklePasses: 4, heelPasses: 44,
      footPasses: 98, toePasses: 42, toeTipStitches: 10, toeDecreases: 11,
    });
    expect(json.knit).toEqual({ passes: 240, loops: 8440, wraps: 22, transfers: 152, decreases: 44 });
    expect(json.fabric).toMatchObject({ vertices: 8440, euler: 1, boundaries: 1 });
    expect(json.measures!.rest.footLengthMm! / 25.4).toBeCloseTo(9.2, 6);
  }, 60_000);
});

// A closed sock is a disk whose one boundary is the cast-on: V - E + F = 1 (Euler), however small it is.
describe('the smallest socks that there are', () => {
  test.each([
    [{ stitches: 12, legPasses: 0, anklePasses: 2, footPasses: 2 }, {}],
    [{ stitches: 8, legPasses: 0, anklePasses: 2, footPasses: 2 }, { toe: { kind: 'short-row' } }],
    [{ stitches: 8, legPasses: 2, anklePasses: 0, footPasses: 2 }, { leg: { kind: 'tube' }, toe: { kind: 'short-row', closing: 'bind-off' } }],
    [{ stitches: 12, legPasses: 0, anklePasses: 2, footPasses: 2 }, { leg: { kind: 'tube' }, heel: { wraps: false, plateauPasses: 2 } }],
    [{ stitches: 72, footPasses: 2 }, { heel: { turnDownWidth: 34 }, toe: { tipStitches: 34, closing: 'bind-off' } }],
    [{ stitches: 72, footPasses: 4 }, { heel: { turnDownWidth: 2, plateauPasses: 20 }, toe: { tipStitches: 4, passesPerDecrease: 20 } }],
  ])('%j %j', (counts, choices) => {
    const { json, exitCode } = reportOnSock(JSON.stringify({ gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, counts, ...choices }), { poses: [] }, fiveMilliseconds());
    expect([exitCode, json.fabric?.euler, json.fabric?.boundaries]).toEqual([0, 1, 1]);
    expect(json.fabric?.vertices).toBe(json.knit?.loops);
  });
});

describe('the report on what is no sock', () => {
  test.each([
    ['nothing', ''], ['no JSON', '{'], ['no gauge', '{"foot": {"lengthMm": 262, "ballGirthMm": 246}}'],
    ['a turn-down that cannot be', JSON.stringify({ ...(JSON.parse(SMALL) as object), heel: { turnDownWidth: 12 } })],
  ])('%s: nulls, problems and 2', (_name, text) => {
    const { json, exitCode } = reportOnSock(text, { poses: ['flat'] }, fiveMilliseconds());
    expect(exitCode).toBe(2);
    expect(keysOf(json)).toEqual([...TOP_KEYS].sort());
    const { problems, ...rest } = json;
    expect(Object.values(rest)).toEqual(TOP_KEYS.slice(1).map(() => null));
    expect(problems.length).toBeGreaterThan(0);
    for (const problem of problems) expect(keysOf(problem)).toEqual(['allowed', 'field', 'message', 'value']);
  });
});

/** The small sock for a foot, invented; with a foot whose measures contradict each other. */
const FITTED = JSON.stringify({ gauge: { stitchesPer10cm: 20, rowsPer10cm: 28 }, foot: { lengthMm: 150, ballGirthMm: 150, heelDiagonalMm: 215 }, leg: { kind: 'tube', lengthMm: 30 } });
const CONTRADICTING = JSON.stringify({ gauge: { stitchesPer10cm: 20, rowsPer10cm: 28 }, foot: { lengthMm: 240, ballGirthMm: 120 }, leg: { kind: 'tube', lengthMm: 30 } });

/** Every number of a value that goes into JSON is finite: what is not would be written as null. */
function findInfinite(value: unknown): unknown[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(findInfinite) : [];
}

describe('what the report tells when it is asked', () => {
  test('nothing more than it is asked, but the tolerance', () => {
    const { json } = reportOnSock(FITTED, { poses: [] }, fiveMilliseconds());
    expect([json.fit, json.advice, json.compare, json.grade]).toEqual([null, null, null, null]);
    // Closed form: c stitches are 100 c / g mm wide at g in 10 cm.
    const girth = json.tolerance!.rows.find(({ measure }) => measure === 'footGirthMm')!, { stitches } = json.plan!;
    expect(girth.moreStitchesMm).toBeCloseTo(100 * stitches / 20.5 - 100 * stitches / 20, 9);
  });

  test('advice, sizes and a comparison at once', () => {
    const compare = { name: 'other.json', text: SMALL };
    const { json, exitCode } = reportOnSock(FITTED, { poses: [], wantsAdvice: true, wantsGrade: true, compare }, fiveMilliseconds());
    expect([exitCode, json.problems]).toEqual([0, []]);
    expect(json.advice!.best).toHaveLength(3);
    expect(keysOf(json.advice!.best[0])).toEqual(['changes', 'file', 'grams', 'metres', 'misfits', 'passes', 'passesPerDecrease', 'plan', 'plateauPasses', 'reason', 'score']);
    expect(keysOf(json.advice!.best[0].plan)).toEqual([...PLAN_KEYS].sort());
    expect(json.grade!.length).toBeGreaterThanOrEqual(12);
    for (const { sock, size } of json.grade!) expect([size.name, keysOf(sock)]).toEqual([size.name, ['grams', 'metres', 'passes', 'plan']]);
    expect(json.compare!.rows.find(({ name }) => name === 'stitches')).toMatchObject({ first: json.plan!.stitches, second: 24, difference: 24 - json.plan!.stitches });
    expect(json.compare!.remarks.map(({ field }) => field)).toEqual(['foot']);
    expect(findInfinite(json)).toEqual([]);
  });

  test('the fit, with the worn pose, and the same pose of both socks compared', () => {
    const compare = { name: 'other.json', text: JSON.stringify({ ...(JSON.parse(FITTED) as object), heel: { turnDownWidth: 2 } }) };
    const { json } = reportOnSock(FITTED, { poses: ['worn'], compare }, fiveMilliseconds());
    expect(keysOf(json.poses)).toEqual(['worn']);
    expect(keysOf(json.measures)).toEqual(['rest', 'worn']);
    expect(keysOf(json.fit)).toEqual(['answers', 'summary']);
    expect(json.fit!.answers.length).toBeGreaterThan(3);
    for (const answer of json.fit!.answers) expect(keysOf(answer)).toEqual(['answer', 'basis', 'because', 'question', 'unit', 'value', 'verdict']);
    expect(json.compare!.rows.find(({ name }) => name === 'worn.footLengthMm')!.first).toBe(json.measures!.worn!.footLengthMm);
    expect(json.compare!.rows.find(({ name }) => name === 'worn.gapPercent')).toMatchObject({ first: json.fit!.summary.gapPercent, unit: '%' });
    expect(findInfinite(json)).toEqual([]);
  });

  test('measures that contradict each other, beside the sock all the same', () => {
    const { json, exitCode } = reportOnSock(CONTRADICTING, { poses: [] }, fiveMilliseconds());
    expect(exitCode).toBe(0);
    expect(json.plan).not.toBeNull();
    expect(json.problems.map(({ field }) => field)).toEqual(['foot.ballGirthMm']);
  });

  test('a second file that is no sock is refused by its name', () => {
    const { json, exitCode } = reportOnSock(FITTED, { poses: [], compare: { name: 'other.json', text: '{"gauge": {"stitchesPer10cm": 3, "rowsPer10cm": 42}}' } }, fiveMilliseconds());
    expect([exitCode, json.plan]).toEqual([2, null]);
    expect(json.problems[0]).toMatchObject({ field: 'compare.gauge.stitchesPer10cm' });
    expect(json.problems[0].message).toMatch(/^other\.json: /);
  });
});

describe('the command', () => {
  test('prints one object for a file', () => {
    const { json, status, stderr } = runReport([saved('small.json', SMALL), '--poses', 'none']);
    expect(status).toBe(0);
    expect(stderr).toBe('');
    expect(json.plan?.stitches).toBe(24);
  }, 60_000);

  test('reads standard input, 50 MB of it if it must', () => {
    const { json, status } = runReport(['-', '--poses', 'none'], `{"name": "${'x'.repeat(50_000_000)}"}`);
    expect(status).toBe(2);
    expect(json.problems[0].message).toMatch(/5 MB/);
  }, 60_000);

  test('compares with a second file, and names one that is missing', () => {
    const first = saved('first.json', FITTED), second = saved('second.json', SMALL);
    const compared = runReport([first, '--poses', 'none', '--compare', second]);
    expect(compared.status).toBe(0);
    expect(compared.json.compare!.rows.length).toBeGreaterThan(20);
    const missing = runReport([first, '--poses', 'none', '--compare', join(FOLDER, 'none.json')]);
    expect(missing.status).toBe(2);
    expect(missing.json.problems).toMatchObject([{ field: 'compare' }]);
    expect(missing.json.problems[0].message).toContain('none.json: There is no such file.');
  }, 60_000);

  test('a missing file is a problem', () => {
    const { json, status } = runReport([join(FOLDER, 'none.json')]);
    expect(status).toBe(2);
    expect(json).toMatchObject({ plan: null, knit: null, fabric: null, poses: null, measures: null, yarn: null, yarnLaid: null });
    expect(json.problems).toMatchObject([{ field: null, message: 'There is no such file.' }]);
  }, 60_000);
});
