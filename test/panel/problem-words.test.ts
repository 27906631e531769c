import { describe, expect, it } from 'vitest';
import { inUnitsOf, problemWords } from '../../src/panel/problem-words.ts';
import { FIRST_SETTINGS } from '../../src/main/settings.ts';
import { planSock } from '../../src/plan/plan-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';

const SOCK: SockFile = { gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, foot: { lengthMm: 255, ballGirthMm: 238 } };

/** What the page says first of a sock. */
function wordsOf(file: SockFile, settings: Partial<typeof FIRST_SETTINGS>): string {
  const [problem] = planSock(file).problems;
  return problem === undefined ? '' : problemWords(problem, { ...FIRST_SETTINGS, ...settings });
}

// An inch is 25.4 mm exactly (International Yard and Pound Agreement, 1959).
describe('a sentence with lengths', () => {
  it.each([
    ['from 60 to 400 mm, or 254 mm', 'cm', 'from 6.0 to 40.0 cm, or 25.4 cm'],
    ['from 127 to 254 mm', 'in', 'from 5.00 to 10.00 in'],
    ['254 mm x 0.90 x 0.300 st/mm', 'cm', '25.4 cm x 0.90 x 3.00 st/cm'],
    ['254 mm x 0.90 x 0.300 st/mm', 'in', '10.00 in x 0.90 x 7.62 st/in'],
    ['from 2 to 30 stitches', 'in', 'from 2 to 30 stitches'],
  ] as const)('%j in %s', (text, unit, told) => {
    expect(inUnitsOf(text, unit)).toBe(told);
  });
});

describe('a problem', () => {
  it('of a length out of its limits says all three numbers in the unit of its control', () => {
    expect(wordsOf({ ...SOCK, foot: { lengthMm: 5, ballGirthMm: 238 } }, {})).toMatch(/: 0\.5, .* from 6 to 40 cm\.$/);
    expect(wordsOf({ ...SOCK, foot: { lengthMm: 2540, ballGirthMm: 238 } }, { lengthUnit: 'in' })).toMatch(/: 100, .* from 2\.37 to 15\.74 in\.$/);
  });

  it('of a gauge is told as it was counted, with limits that can be typed', () => {
    const file: SockFile = { ...SOCK, gauge: { stitchesPer10cm: 3.937, rowsPer10cm: 42 } };
    // 8 and 120 in 10 cm are 2.032 and 30.48 to the inch.
    expect(wordsOf(file, { gaugeUnit: 'inch' })).toMatch(/^Stitches to the inch: 1, .* from 2\.04 to 30\.48 to the inch\.$/);
    // Over 50 mm, half of what there is over 100.
    expect(wordsOf(file, { gaugeUnit: 'patch', patchWidthMm: 50 })).toMatch(/: 2, .* from 4 to 60 in the patch\.$/);
  });

  it('names no field of the file', () => {
    const words = wordsOf({ gauge: SOCK.gauge, foot: { lengthMm: 255 } }, {});
    expect(words).toContain('stitches round');
    expect(words).not.toMatch(/[a-z]+\.[a-z]/);
  });

  it('keeps a machine’s millimetres', () => {
    expect(wordsOf({ ...SOCK, machine: { needlePitchMm: 0.5 } }, { lengthUnit: 'in' })).toMatch(/0\.5, .* from 1 to 20 mm/);
  });
});
