import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { BED, NEEDLE, SECTION } from '../../src/machine/codes.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import type { KnittedSock } from '../../src/pipeline/result.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import type { SectionName } from '../../src/plan/step.ts';
import { withField } from '../../src/plan/with-field.ts';
import { findFigure } from '../../src/sheet/lesson-figures.ts';
import { plainText } from '../../src/sheet/lesson-markdown.ts';
import { findPass, listSections } from '../../src/sheet/lesson-places.ts';
import type { Lesson, LessonBlock } from '../../src/sheet/lesson.ts';
import { readLesson } from '../../src/sheet/read-lesson.ts';
import { WORDS } from '../../src/words/words.ts';

function open(language: 'en' | 'de'): Lesson {
  const text = readFileSync(new URL(`../../public/lessons/heel.${language}.md`, import.meta.url), 'utf8');
  const { lesson, problems } = readLesson(text, WORDS[language].lesson);
  expect(problems).toEqual([]);
  if (lesson === null) throw new Error('no lesson');
  return lesson;
}

function knit(file: SockFile): KnittedSock {
  const { sock, problems } = knitSock(file);
  if (sock === null) throw new Error(problems.map(({ message }) => message).join(' '));
  return sock;
}

const english = open('en'), german = open('de'), socks = english.steps.map(({ sock }) => knit(sock)), plain = knit(english.sock);
/** In the order of the lesson. */
const [tube, wait, back, mitre, bare, wrapped, pair, plateau, corner, toe, own] = socks;

const wordsOf = (blocks: readonly LessonBlock[]): string => blocks.map((block) => {
  if (block.kind === 'code') return '';
  return block.kind === 'list' ? block.items.map((parts) => plainText(parts, () => '8')).join(' ') : plainText(block.parts, () => '8');
}).join(' ');

/** Loops formed by a needle in sections of the work, counted in the grid. */
function loopsOn({ grid }: KnittedSock, bed: 'front' | 'back', needle: number, ...sections: readonly SectionName[]): number {
  const codes = new Set<number>(sections.map((name) => SECTION[name]));
  let count = 0;
  for (let loop = 0; loop < grid.loopCount; loop++) {
    if (grid.bed[loop] === BED[bed] && grid.needle[loop] === needle && codes.has(grid.section[loop]) && grid.kind[loop] === 1) count += 1;
  }
  return count;
}

/** Needles of a bed in a state after a pass, counted from the left end. */
function needlesIn({ trace }: KnittedSock, pass: number, bed: 'front' | 'back', state: number): number[] {
  const from = (2 * pass + BED[bed]) * trace.needlesPerBed;
  return Array.from({ length: trace.needlesPerBed }, (_, i) => i + 1).filter((needle) => trace.needleStates[from + needle - 1] === state);
}

const passesOf = ({ trace }: KnittedSock, section: SectionName): number[] => trace.passes.flatMap(({ section: its, pass }) => (its === section ? [pass] : []));
const HEEL = ['heel-in', 'heel-level', 'heel-out'] as const;

describe('the built-in lessons', () => {
  it('say the same in both languages: the same socks, but for their name, and the same scenes, step by step', () => {
    const unnamed = (sock: SockFile): SockFile => ({ ...sock, name: '' });
    const scenesOf = (lesson: Lesson): unknown => lesson.steps.map(({ sock, scene }) => ({ sock: unnamed(sock), scene }));
    expect(scenesOf(german)).toEqual(scenesOf(english));
    expect(unnamed(german.sock)).toEqual(unnamed(english.sock));
  });

  it.each([['en', english], ['de', german]] as const)('%s: are short enough to be said aloud', (_, lesson) => {
    for (const { title, blocks } of lesson.steps) {
      const count = wordsOf(blocks).split(/\s+/).length;
      expect(count, title).toBeGreaterThanOrEqual(40);
      expect(count, title).toBeLessThanOrEqual(100);
    }
  });

  it('show passes that their socks have', () => {
    for (const { title, sock, scene } of english.steps) {
      const sections = listSections(knit(sock).plan);
      for (const place of [scene.pass, scene.play?.from, scene.play?.to]) if (place !== undefined) expect(findPass(sections, place), title).not.toBeNull();
    }
  });

  it('list the passes of a program as the machine knits them', () => {
    for (const { plan, trace } of socks) expect(listSections(plan)).toEqual(trace.passes.map(({ section }) => section));
  });
});

describe('what the lesson claims, held against the needles and the grid', () => {
  const { plan } = plain, H = plan.heelStitches, W = plan.turnDownWidth, held = (H - W) / 2, last = (of: KnittedSock, section: SectionName): number => passesOf(of, section).at(-1) ?? NaN;

  it('before the heel all needles work', () => {
    const pass = (passesOf(tube, 'heel-in')[0] ?? NaN) - 1;
    for (const bed of ['front', 'back'] as const) expect([needlesIn(tube, pass, bed, NEEDLE.held).length, needlesIn(tube, pass, bed, NEEDLE.working).length]).toEqual([0, plan.bedStitches]);
  });

  it('each row of the turning down is one stitch shorter, and as many needles wait at each side', () => {
    expect(passesOf(wait, 'heel-in').map((pass) => wait.trace.passes[pass].knitted)).toEqual(Array.from({ length: H - W }, (_, i) => H - 1 - i));
    const waiting = needlesIn(wait, last(wait, 'heel-in'), plan.heelBed, NEEDLE.held), working = needlesIn(wait, last(wait, 'heel-in'), plan.heelBed, NEEDLE.working);
    expect(waiting.filter((needle) => needle < working[0])).toHaveLength(held);
    expect(waiting.filter((needle) => needle > working[0])).toHaveLength(held);
    expect(plan.heelBed).toBe('front');
  });

  it('the needles in the middle knit every pass of the heel, the other bed none', () => {
    const [first] = needlesIn(back, last(back, 'heel-in'), plan.heelBed, NEEDLE.working);
    for (let needle = first; needle < first + W; needle++) expect(loopsOn(back, 'front', needle, ...HEEL)).toBe(findFigure(plan, 'heel-passes'));
    for (let needle = 1; needle <= plan.needlesPerBed; needle++) expect(loopsOn(back, 'back', needle, ...HEEL)).toBe(0);
  });

  it('a mitre is half of the waiting stitches wide: its held stitches, one a wale', () => {
    const needles = new Set<number>();
    for (const loop of mitre.grid.mitrePairs) needles.add(mitre.grid.needle[loop]);
    expect(needles.size).toBe(2 * held);
    expect(findFigure(plan, 'held')).toBe(held);
  });

  it('without wraps there is none but at the corners; with them one for each pass of turning down', () => {
    expect([bare.trace.wraps, bare.trace.cornerWraps, findFigure(bare.plan, 'wraps')]).toEqual([0, 2, 0]);
    expect([wrapped.trace.wraps, wrapped.trace.cornerWraps, findFigure(wrapped.plan, 'wraps')]).toEqual([H - W, 2, passesOf(wrapped, 'heel-in').length]);
  });

  it('one more pair held makes the heel two rows deeper', () => {
    // Closed form: depth n rows, n = H - W. The rows are counted on the middle needle, down and out.
    expect(pair.plan.turnDownWidth).toBe(W - 2);
    const middle = (of: KnittedSock, section: SectionName): number => loopsOn(of, 'front', needlesIn(of, last(of, 'heel-in'), 'front', NEEDLE.working)[1], section);
    for (const section of ['heel-in', 'heel-out'] as const) expect(middle(pair, section) - middle(plain, section)).toBe(2);
    expect(findFigure(pair.plan, 'heel-rows') - findFigure(plan, 'heel-rows')).toBe(2);
    expect(findFigure(pair.plan, 'n') - findFigure(plan, 'n')).toBe(passesOf(pair, 'heel-in').length - passesOf(plain, 'heel-in').length);
  });

  it('a plateau deepens the heel by half of its passes', () => {
    expect(findFigure(plateau.plan, 'heel-rows') - findFigure(plan, 'heel-rows')).toBe(passesOf(plateau, 'heel-level').length / 2);
    expect(findFigure(plateau.plan, 'plateau')).toBe(passesOf(plateau, 'heel-level').length);
  });

  it('at the corners the heel has grown by a row or two, and the last two turns lie round the other bed’s ends', () => {
    const pass = last(corner, 'heel-out'), ends = needlesIn(corner, pass, 'front', NEEDLE.working);
    for (const needle of [ends[0], ends.at(-1) ?? NaN]) expect([1, 2]).toContain(loopsOn(corner, 'front', needle, ...HEEL));
    const resting = needlesIn(corner, pass, 'back', NEEDLE.working);
    const wraps = corner.program.steps.flatMap((step) => (step.do === 'wrap' && step.at.bed === 'back' ? [step.at.needle] : []));
    expect([...wraps].sort((a, b) => a - b)).toEqual([resting[0], resting.at(-1)]);
  });

  it('the short-row toe is turned like the heel, and wrapped', () => {
    const T = toe.plan.toeTipStitches;
    expect(findFigure(toe.plan, 'toe-passes')).toBe(passesOf(toe, 'toe-in').length + passesOf(toe, 'toe-out').length);
    expect(passesOf(toe, 'toe-in').map((pass) => toe.trace.passes[pass].knitted)).toEqual(Array.from({ length: H - T }, (_, i) => H - 1 - i));
    expect(toe.trace.wraps).toBe(H - W + H - T);
    expect(toe.grid.mitrePairs.length / 2).toBe(H - W - 2 + H - T - 2);
  });

  it('tighter rows make a shallower heel of the same counts, looser ones and a plateau a deeper one', () => {
    const depth = (file: SockFile): number => findFigure(knit(file).plan, 'heel-depth'), rows = own.file.gauge.rowsPer10cm;
    expect(depth(own.file)).toBe(Math.round((100 * (H - W)) / rows));
    expect(depth(withField(own.file, 'gauge.rowsPer10cm', rows + 6))).toBeLessThan(depth(own.file));
    expect(depth(withField(own.file, 'gauge.rowsPer10cm', rows - 6))).toBeGreaterThan(depth(own.file));
    expect(depth(withField(own.file, 'heel.plateauPasses', 4))).toBeGreaterThan(depth(own.file));
  });
});
