import { describe, expect, it } from 'vitest';
import { averageSwatches, findShrinkage, readSpread } from '../../src/choose/average-swatches.ts';
import { MOST_SWATCHES } from '../../src/panel/swatch-dialog.ts';
import { finished, SWATCH_LIMITS } from '../../src/panel/swatch-line.ts';
import { readingWords } from '../../src/panel/swatch-words.ts';
import { planSock } from '../../src/plan/plan-sock.ts';
import { numberRuleAt, ruleAt } from '../../src/plan/sock-schema.ts';
import type { SwatchCount } from '../../src/plan/sock-file.ts';

const swatch = (stitches: number, rows: number, washed = true): SwatchCount => ({ stitches, widthMm: 100, rows, heightMm: 100, washed });
const { plan } = planSock({ gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, foot: { lengthMm: 262, ballGirthMm: 246 } });

function words(swatches: readonly SwatchCount[], unit: 'cm' | 'in' = 'cm'): string {
  const average = averageSwatches(swatches, 'washed') ?? averageSwatches(swatches, 'unwashed');
  const reading = average === null ? null : { average, shrinkage: findShrinkage(swatches), spread: plan === null ? null : readSpread(plan, average) };
  return readingWords(reading, unit).join(' ');
}

describe('what swatches say', () => {
  it('asks for one where there is none', () => {
    expect(words([])).toMatch(/one swatch at least/);
  });

  it('of one: its gauge, and that it does not tell how even the knitting is', () => {
    expect(words([swatch(31, 43)])).toMatch(/^31\.0 stitches and 43\.0 rows in 10 cm, from 1 washed swatch .*second one/);
  });

  it('of several: mean and spread, and what it means for the sock', () => {
    // Mean of 30 and 31 is 30.5; the sample's deviation is 1 / sqrt 2 = 0.71, of the mean 0.5. Rows: 42 and 44; 43, 1.41, 1.
    const said = words([swatch(30, 42), swatch(31, 44)]);
    expect(said).toMatch(/^30\.5 stitches and 43\.0 rows/);
    expect(said).toContain('±0.7 stitches and ±1.4 rows');
    expect(said).toContain('±0.5 and ±1.0');
    // 68 stitches at 30 in 10 cm are 22.7 cm; at 29.5 they are 23.05: 0.4 cm more.
    expect(said).toMatch(/±0\.4 cm of 22\.7 cm girth/);
  });

  it('to the inch where the page is in inches', () => {
    // 30 in 10 cm are 7.62 to the inch.
    expect(words([swatch(30, 42)], 'in')).toMatch(/^7\.62 stitches and 10\.67 rows to the inch/);
  });

  it('goes by the washed ones, and tells how far washing draws the cloth in', () => {
    // 29 stitches before and 30 after: the cloth is 29/30 as wide, 3.3 % less; 42 rows before and 40 after: 5 % longer.
    const said = words([swatch(29, 42, false), swatch(30, 40)]);
    expect(said).toMatch(/^30\.0 stitches and 40\.0 rows/);
    expect(said).toContain('loses 3.3 % of its width and gains 5.0 % of its length');
    expect(words([swatch(29, 42, false)])).toContain('Wash, and count again');
  });
});

it('limits are those of the sock file', () => {
  for (const [key, limits] of Object.entries(SWATCH_LIMITS)) {
    const { min, max } = numberRuleAt(`gauge.swatches.0.${key}`);
    expect([key, ...limits]).toEqual([key, min, max]);
  }
  expect(ruleAt('gauge.swatches')).toMatchObject({ kind: 'list', longest: MOST_SWATCHES });
});

it('a swatch counts when all of it is put in, within the limits', () => {
  const draft = { stitches: 30, widthMm: 100, rows: 42, heightMm: 100, washed: true };
  expect(finished(draft)).toEqual(draft);
  expect(finished({ ...draft, rows: null })).toBeNull();
  expect(finished({ ...draft, widthMm: 9 })).toBeNull();
});
