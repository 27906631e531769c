import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/base/random.ts';
import { makeProblem } from '../../src/base/make-problem.ts';
import type { Problem } from '../../src/base/problem.ts';
import { adviseSock } from '../../src/choose/advise-sock.ts';
import { checkSizes } from '../../src/choose/check-sizes.ts';
import { compareSocks } from '../../src/choose/compare-socks.ts';
import { measuringGuide } from '../../src/foot/measuring-guide.ts';
import { STANDARD_SIZES } from '../../src/foot/standard-sizes.ts';
import { findCautions } from '../../src/measure/find-cautions.ts';
import { judgePressure } from '../../src/measure/judge-pressure.ts';
import { inUnitsOf, problemWords } from '../../src/panel/problem-words.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import { poseSock } from '../../src/pipeline/pose-sock.ts';
import { SOCK_SCHEMA } from '../../src/plan/sock-schema.ts';
import type { Rule } from '../../src/plan/field-rule.ts';
import { planSock } from '../../src/plan/plan-sock.ts';
import { readSock } from '../../src/plan/read-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { withField } from '../../src/plan/with-field.ts';
import { setPageLanguage } from '../../src/words/page-words.ts';
import { sayIn } from '../../src/words/say.ts';
import { randomSockFile } from '../plan/random-sock-file.ts';

/** English words that no German sentence has; what a file or a person wrote stands in the tests in capitals or figures. */
const ENGLISH = /\b(the|and|of|with|but|must|is|are|from|heel|foot|stitches|passes|needles|instead|makes?|where|shape|given|nearest)\b/i;

/** Fields and values of a file are named as they stand in it. */
const OWN = /\b[a-z]+(?:\.\w+)+|"[^"]*"|\([a-z-]+\)|\b(?:Objekt mit|eines von|nur) [\w, ]+/g;

const PLAIN: SockFile = { gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, foot: { lengthMm: 262, ballGirthMm: 246 } };
const SETTINGS = { gaugeUnit: '10cm', patchWidthMm: 100, patchHeightMm: 100 } as const;

/** Those that stay English, or half English, in either unit. */
function untold(texts: readonly string[]): string[] {
  return [...new Set(texts)].filter((text) => (['cm', 'in'] as const).some((unit) => {
    const said = sayIn('de', inUnitsOf(text, unit));
    return said === null || ENGLISH.test(said.replace(OWN, ''));
  }));
}

function untoldProblems(problems: readonly Problem[]): string[] {
  return untold([...problems.map(({ message }) => message), ...problems.flatMap(({ allowed }) => allowed ?? [])]);
}

/** Every field of the sock file with values that it cannot take. */
function wrongFiles(): SockFile[] {
  const files: SockFile[] = [];
  const walk = (rule: Rule, path: string): void => {
    if (rule.kind === 'group') for (const [name, inner] of Object.entries(rule.fields)) walk(inner, path === '' ? name : `${path}.${name}`);
    if (path === '') return;
    for (const value of [null, [], 'X', '12', 3.5, -1, 1e9, true, {}, Number.NaN, Array(40).fill({})]) files.push(withField(PLAIN, path, value));
    if (rule.kind === 'list') for (const entry of [{}, { passes: 3, times: 0.5 }, { stitches: 0 }, 5, { colour: 'RED' }]) files.push(withField(PLAIN, path, [entry]));
  };
  walk(SOCK_SCHEMA, '');
  return files;
}

const FEET = [
  { lengthMm: 262, ballGirthMm: 120 }, { lengthMm: 262, ballGirthMm: 400, heelBreadthMm: 120 }, { lengthMm: 262, ballGirthMm: 246, ankleGirthMm: 500, heelDiagonalMm: 600 },
  { lengthMm: 262, ballGirthMm: 246, calfGirthMm: 200, ankleGirthMm: 300 }, { lengthMm: 262, ballGirthMm: 246, heelDiagonalMm: 200, ankleGirthMm: 120, calfGirthMm: 700, heelBreadthMm: 22 },
  { lengthMm: 61, ballGirthMm: 246 }, { ballGirthMm: 246, shoeSize: { system: 'uk', value: 8 } }, { ballGirthMm: 246, shoeSize: { system: 'continental', value: 400 } },
  { lengthMm: 400, ballGirthMm: 60, heelDiagonalMm: 600 }, { lengthMm: 262, ballGirthMm: 246, heelDiagonalMm: 420, calfGirthMm: 500 },
] as const;

/** Shapings that contradict each other, and some that do not. */
function shapedFiles(): SockFile[] {
  const files: SockFile[] = FEET.map((foot) => ({ ...PLAIN, foot }));
  const set = (changes: Readonly<Record<string, unknown>>): void => {
    files.push(Object.entries(changes).reduce<SockFile>((file, [path, value]) => withField(file, path, value), PLAIN));
  };
  for (const value of [4, 8, 20, 40, 60, 200]) for (const path of ['heel.turnDownWidth', 'toe.tipStitches', 'heel.stitches', 'toe.slantStitches', 'counts.stitches', 'machine.needlesPerBed']) set({ [path]: value });
  for (const kind of ['short-row', 'decreased']) for (const tip of [2, 4, 30, 60]) set({ 'toe.kind': kind, 'toe.tipStitches': tip });
  for (const times of [1, 3, 40]) set({ 'toe.schedule': [{ passes: 4, times }, { passes: 2, times }], 'toe.slantStitches': times === 3 ? 12 : 2 });
  set({ 'toe.schedule': [{ passes: 4, times: 3 }], 'toe.tipStitches': 12 });
  set({ 'leg.kind': 'tube', 'counts.legPasses': 31 });
  set({ 'leg.kind': 'tube', 'counts.legPasses': 0, 'counts.anklePasses': 0 });
  set({ 'counts.anklePasses': 0 });
  set({ 'leg.kind': 'tube', 'machine.needlesPerBed': 30 });
  set({ 'leg.kind': 'tube', 'heel.stitches': 48, 'machine.needlesPerBed': 40 });
  set({ 'machine.needlesPerBed': 40 });
  set({ 'counts.stitches': 8, 'toe.kind': 'short-row' });
  set({ 'foot.ballGirthMm': 60, 'gauge.stitchesPer10cm': 8 });
  set({ 'foot.lengthMm': 60 });
  set({ 'foot.lengthMm': undefined, 'foot.shoeSize': { system: 'continental', value: 14 } });
  files.push({ gauge: PLAIN.gauge });
  set({ 'foot.lengthMm': undefined });
  set({ 'toe.closing': 'bind-off', 'heel.stitches': 46, 'counts.footPasses': 60 });
  set({ 'counts.footPasses': 200 });
  set({ 'counts.stitches': 120 });
  set({ 'counts.stitches': 44, 'leg.lengthMm': 300 });
  set({ 'leg.kind': 'tube', 'counts.stitches': 44, 'leg.lengthMm': 300 });
  return files;
}

describe('what the core says is said in German', () => {
  it('of files that are no sock files', () => {
    const texts = ['', '[]', '5', 'null', '"X"', '{', '['.repeat(40) + ']'.repeat(40), JSON.stringify({ ...PLAIN, guage: 1, WHATEVER: 2 }), JSON.stringify({ gauge: Object.fromEntries(Array.from({ length: 30 }, (_, i) => [`X${i}`, i])) })];
    const problems = [...texts.flatMap((text) => readSock(text).problems), ...readSock('x'.repeat(5_100_000)).problems];
    expect(problems.length).toBeGreaterThan(texts.length);
    expect(untoldProblems(problems)).toEqual([]);
  });

  it('of every field with what it cannot take', () => {
    const problems = wrongFiles().flatMap((file) => planSock(file).problems);
    expect(problems.length).toBeGreaterThan(300);
    expect(untoldProblems(problems)).toEqual([]);
  });

  it('of counts that contradict each other, of feet, of cautions and of formulas', () => {
    const random = createRandom(7), files = [...shapedFiles(), ...Array.from({ length: 150 }, () => randomSockFile(random))], problems: Problem[] = [], formulas: string[] = [];
    for (const file of files) {
      const planned = planSock(file);
      problems.push(...planned.problems);
      formulas.push(...planned.derivations.map(({ formula }) => formula));
      if (planned.plan !== null) problems.push(...findCautions(planned.plan, planned.foot, file.foot ?? {}));
    }
    expect(new Set(problems.map(({ field }) => field)).size).toBeGreaterThan(15);
    expect(untoldProblems(problems)).toEqual([]);
    expect(untold(formulas)).toEqual([]);
  });

  it('of advice for feet of all kinds', () => {
    const reasons = [PLAIN.foot!, { lengthMm: 262, ballGirthMm: 246, heelDiagonalMm: 356 }, { lengthMm: 262, ballGirthMm: 246, heelDiagonalMm: 300 }, { lengthMm: 230, ballGirthMm: 246, heelDiagonalMm: 340 }]
      .flatMap((foot) => [{}, { counts: { stitches: 80, footPasses: 100 } }, { toe: { kind: 'short-row' as const } }, { heel: { plateauPasses: 6 } }].map((more): SockFile => ({ ...PLAIN, ...more, foot })))
      .flatMap((file) => adviseSock(file).best.map(({ reason }) => reason));
    expect(reasons.length).toBeGreaterThan(30);
    expect(untold(reasons)).toEqual([]);
    expect(untoldProblems(adviseSock({ gauge: PLAIN.gauge, counts: { stitches: 72, footPasses: 110 } }).problems)).toEqual([]);
  });

  it('of sizes, and of how to measure a foot', () => {
    const rows = [{ name: 'X', lengthMm: 5, ballGirthMm: 500, legLengthMm: 9000, isEstimate: false }, { name: 'Y', lengthMm: 250, ballGirthMm: 100, legLengthMm: null, isEstimate: false }];
    expect(untoldProblems(checkSizes(rows))).toEqual([]);
    expect(untold(STANDARD_SIZES.flatMap(({ name, source }) => [name, source]))).toEqual([]);
    const { before, steps, cautions } = measuringGuide();
    expect(untold([...before, ...cautions, ...steps.flatMap(({ name, how }) => [name, how])])).toEqual([]);
    expect(untold([4, 12, 16, 25].flatMap((mmHg) => { const { word, warning } = judgePressure(mmHg); return [word, ...(warning === null ? [] : [warning])]; }))).toEqual([]);
  });

  it('of worn socks and of two compared', () => {
    const small = (foot: NonNullable<SockFile['foot']>, more: Partial<SockFile> = {}): SockFile => ({ gauge: { stitchesPer10cm: 10, rowsPer10cm: 13 }, foot, leg: { lengthMm: 40 }, ...more });
    const socks = [
      small({ lengthMm: 250, ballGirthMm: 236, heelDiagonalMm: 380 }, { counts: { stitches: 20, footPasses: 20 } }),
      small({ lengthMm: 250, ballGirthMm: 236 }, { counts: { stitches: 28, footPasses: 40 }, heel: { turnDownWidth: 2 }, machine: { needlesPerBed: 100 }, cloth: { firmness: 'firm' } }),
    ].map((file) => {
      const { sock } = knitSock(file);
      if (sock === null) throw new Error('the sock cannot be knitted');
      return { sock, posed: poseSock(sock, 'worn') };
    });
    const answers = socks.flatMap(({ posed }) => posed.worn?.fit ?? []).flatMap(({ answer, because, basis }) => [answer, because, basis]);
    expect(answers.length).toBeGreaterThan(30);
    expect(untold(answers)).toEqual([]);
    const compared = socks.slice(1).map(({ sock, posed }) => compareSocks(socks[0].sock, sock, [{ first: socks[0].posed, second: posed }]));
    expect(untold(compared.flatMap(({ rows }) => rows.map(({ label }) => label)))).toEqual([]);
    expect(untold(compared.flatMap(({ remarks }) => remarks.map(({ message }) => message)))).toEqual([]);
  });
});

describe('a sentence of the core', () => {
  it('is left in English where there are no words for it, and is then known as English', () => {
    expect(sayIn('de', 'Nobody has translated this.')).toBeNull();
    expect(sayIn('en', 'Nobody has translated this.')).toBe('Nobody has translated this.');
  });

  it('comes with its numbers in the page’s unit and figures', () => {
    const problem = makeProblem('foot.lengthMm', 12, 'a number from 60 to 400 mm', 'Foot length: 12, but it must be a number from 60 to 400 mm.');
    setPageLanguage('de');
    try {
      expect(problemWords(problem, { ...SETTINGS, lengthUnit: 'cm' })).toBe('Fußlänge: 1,2, es muss aber eine Zahl von 6 bis 40 cm sein.');
    } finally { setPageLanguage('en'); }
    expect(problemWords(problem, { ...SETTINGS, lengthUnit: 'cm' })).toBe('Foot length: 1.2, but it must be a number from 6 to 40 cm.');
  });
});
