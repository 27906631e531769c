import { describe, expect, test } from 'vitest';
import { createRandom } from '../../src/base/random.ts';
import { completeMeasures } from '../../src/foot/complete-measures.ts';
import { estimateMeasures, SURVEY } from '../../src/foot/estimate-measures.ts';
import type { MeasureName } from '../../src/foot/foot-measures.ts';
import { MEASURE_NAMES } from '../../src/foot/foot-measures.ts';
import { makeFootForm } from '../../src/foot/foot-form.ts';
import { SEEN_RATIOS } from '../../src/foot/sound-measures.ts';
import type { SurveyedFoot } from '../data/read-feet.ts';
import { readFeet } from '../data/read-feet.ts';
import { farthestByRays, girthByCauchy } from '../foot/girth-by-cauchy.ts';

/**
 * 1,500 measured feet: Gordon C. C. et al., 2012 Anthropometric Survey of U.S. Army Personnel,
 * NATICK/TR-15/007, 2014 (test/data/README.md).
 */
const FEET = readFeet();

const rootMeanSquare = (values: readonly number[]): number => Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
const errorsOf = (feet: readonly SurveyedFoot[], name: MeasureName, given: readonly MeasureName[]): number[] => (
  feet.map((foot) => estimateMeasures(Object.fromEntries(given.map((one) => [one, foot[one]])))[name].valueMm - foot[name])
);

describe('the table of the survey', () => {
  test('means, covariances and extremes are those of the sample', () => {
    MEASURE_NAMES.forEach((name, i) => {
      const values = FEET.map((foot) => foot[name]);
      expect(SURVEY.mean[i]).toBeCloseTo(mean(values), 2);
      expect([SURVEY.least[i], SURVEY.greatest[i]]).toEqual([Math.min(...values), Math.max(...values)]);
      MEASURE_NAMES.forEach((other, j) => {
        const sum = FEET.reduce((total, foot) => total + (foot[name] - mean(values)) * (foot[other] - SURVEY.mean[j]), 0);
        expect(SURVEY.covariance[i][j]).toBeCloseTo(sum / (FEET.length - 1), 1);
      });
    });
  });

  test('ratios taken to be possible start from those of the sample', () => {
    for (const [upper, lower, least, most] of SEEN_RATIOS) {
      const ratios = FEET.map((foot) => foot[upper] / foot[lower]);
      expect(Math.min(...ratios)).toBeCloseTo(least, 3);
      expect(Math.max(...ratios)).toBeCloseTo(most, 3);
    }
  });
});

describe('given length and ball girth only', () => {
  const given = ['lengthMm', 'ballGirthMm'] as const;

  // Scatter of the least squares over the whole survey, 4,082 men and 1,986 women, each sex on its own but for the
  // diagonal: ours does not know the sex and is held to the same.
  test.each<[MeasureName, string, number]>([
    ['heelDiagonalMm', 'Male', 8.2], ['heelDiagonalMm', 'Female', 8.2],
    ['ankleGirthMm', 'Male', 10.7], ['ankleGirthMm', 'Female', 12.0],
    ['heelBreadthMm', 'Male', 4.8], ['heelBreadthMm', 'Female', 4.4],
  ])('%s of the sample (%s) is told with a root mean square error of at most 1.05 x %d mm', (name, gender, sd) => {
    const feet = FEET.filter((foot) => foot.gender === gender);
    expect(rootMeanSquare(errorsOf(feet, name, given))).toBeLessThan(1.05 * sd);
  });

  // The whole survey's regression, both sexes: heel-ankle circumference = 3.9 + 0.720 length + 0.570 ball, SD 8.2 mm.
  // A slope fitted to 1,500 of 6,068 feet is uncertain by some 0.02, so a foot within two SD of the mean by some 1.5 mm.
  test('the diagonal is the whole survey\'s within 1.5 mm', () => {
    for (const foot of FEET) {
      const { heelDiagonalMm } = completeMeasures({ lengthMm: foot.lengthMm, ballGirthMm: foot.ballGirthMm });
      expect(Math.abs(heelDiagonalMm - (3.9 + 0.720 * foot.lengthMm + 0.570 * foot.ballGirthMm))).toBeLessThan(1.5);
    }
  });
});

describe('whatever is given', () => {
  const subsets = Array.from({ length: 64 }, (_, bits) => MEASURE_NAMES.filter((_name, i) => (bits >> i) % 2 === 1));

  test('the told scatter is the sample\'s own, and the estimates are right on average', () => {
    for (const given of subsets) {
      for (const name of MEASURE_NAMES.filter((one) => !given.includes(one))) {
        const errors = errorsOf(FEET, name, given);
        const { sdMm } = estimateMeasures(Object.fromEntries(given.map((one) => [one, FEET[700][one]])))[name];
        expect(Math.abs(mean(errors)), `${name} from ${given.join()}`).toBeLessThan(0.05);
        expect(Math.abs(rootMeanSquare(errors) / sdMm - 1), `${name} from ${given.join()}`).toBeLessThan(0.01);
      }
    }
  });

  test('what is given stays as it is, without scatter', () => {
    for (const given of subsets) {
      const all = estimateMeasures(Object.fromEntries(given.map((one) => [one, FEET[10][one]])));
      for (const name of given) expect(all[name]).toEqual({ valueMm: FEET[10][name], sdMm: 0, isGiven: true, from: [name] });
      for (const name of MEASURE_NAMES) expect(all[name].isGiven).toBe(given.includes(name));
    }
  });

  // Variances of independent errors add (any text on statistics): length's error goes on by its slope, 0.732.
  test('a length from a shoe size is unsure, and what follows from it too', () => {
    const sure = estimateMeasures({ lengthMm: 260, ballGirthMm: 245 }).heelDiagonalMm, unsure = estimateMeasures({ lengthMm: 260, lengthSdMm: 4, ballGirthMm: 245 });
    expect(unsure.lengthMm).toMatchObject({ valueMm: 260, sdMm: 4, isGiven: true });
    expect(unsure.heelDiagonalMm.sdMm).toBeGreaterThan(sure.sdMm);
    // No more than if the error were not reckoned with in the estimate.
    expect(unsure.heelDiagonalMm.sdMm).toBeLessThanOrEqual(Math.hypot(sure.sdMm, 0.732 * 4) + 1e-9);
  });

  test('an arch moves a diagonal that is not given, by one standard deviation, and none that is', () => {
    const tell = (arch: 'low' | 'usual' | 'high', more = {}) => estimateMeasures({ lengthMm: 262, ballGirthMm: 246, arch, ...more }).heelDiagonalMm;
    const { valueMm, sdMm } = tell('usual');
    expect(tell('high').valueMm).toBeCloseTo(valueMm + sdMm, 9);
    expect(tell('low').valueMm).toBeCloseTo(valueMm - sdMm, 9);
    expect(tell('high').from).toContain('arch');
    expect(tell('high', { heelDiagonalMm: 330 }).valueMm).toBe(330);
  });

  // Geometry: beyond the survey's smallest and largest feet the estimates keep their proportions.
  test('a foot beyond the survey is one of its ends, scaled', () => {
    const small = estimateMeasures({ lengthMm: 214, ballGirthMm: 210 }), child = estimateMeasures({ lengthMm: 107, ballGirthMm: 105 });
    for (const name of MEASURE_NAMES) {
      expect(child[name].valueMm).toBeCloseTo(small[name].valueMm / 2, 9);
      expect(child[name].sdMm).toBeCloseTo(small[name].sdMm / 2, 9);
    }
  });
});

/** Feet with the least and greatest of each measure and of each ratio, and some more by lot. */
function pickFeet(): SurveyedFoot[] {
  const picked = new Set<SurveyedFoot>(), random = createRandom(41);
  const keys = [...MEASURE_NAMES.map((name) => (foot: SurveyedFoot) => foot[name]), ...SEEN_RATIOS.map(([upper, lower]) => (foot: SurveyedFoot) => foot[upper] / foot[lower])];
  for (const key of keys) {
    const sorted = [...FEET].sort((a, b) => key(a) - key(b));
    picked.add(sorted[0]).add(sorted[sorted.length - 1]);
  }
  while (picked.size < 64) picked.add(FEET[Math.floor(random() * FEET.length)]);
  return [...picked];
}

describe('the form of a foot with all its measures', () => {
  const feet = pickFeet();

  test('reproduces each within 1 % on feet of the survey, the most unusual ones among them', () => {
    expect(feet.length).toBeGreaterThanOrEqual(60);
    for (const foot of feet) {
      const form = makeFootForm(foot), { lengthMm } = foot, said = JSON.stringify(foot);
      for (const name of ['ballGirthMm', 'ankleGirthMm', 'calfGirthMm', 'heelDiagonalMm'] as const) {
        const { centre, u, v } = form.tapes[name], reach = (name === 'heelDiagonalMm' ? 0.36 : 0.34) * lengthMm;
        expect(Math.abs(girthByCauchy(form, centre, u, v, reach, 0.008 * lengthMm) / foot[name] - 1), `${name} of ${said}`).toBeLessThan(0.01);
      }
      const middle = [0.5 * lengthMm, 0, 0] as const, reach = [lengthMm, 0.2 * lengthMm, 0.1 * lengthMm] as const;
      const length = farthestByRays(form, 0, 1, middle, reach, 2) - farthestByRays(form, 0, -1, middle, reach, 2);
      expect(Math.abs(length / lengthMm - 1), said).toBeLessThan(0.01);
      const heel = [form.heelMm, 0, 0] as const, section = [0, lengthMm, 0.08 * lengthMm] as const;
      const breadth = farthestByRays(form, 1, 1, heel, section) - farthestByRays(form, 1, -1, heel, section);
      expect(Math.abs(breadth / foot.heelBreadthMm - 1), said).toBeLessThan(0.01);
    }
  }, 60_000);

  // A tape over heel tip and instep slides to the least girth, which is what the survey's heel-ankle circumference is held to be here.
  test('its diagonal is the least girth over heel and instep', () => {
    for (const foot of feet.slice(0, 10)) {
      const form = makeFootForm(foot), { centre, u, v } = form.tapes.heelDiagonalMm;
      const tip = [centre[0] - u[0] * 0.2 * foot.lengthMm, 0, centre[2] - u[2] * 0.2 * foot.lengthMm] as const;
      for (const degrees of [-12, -6, 6, 12]) {
        const c = Math.cos(degrees * Math.PI / 180), s = Math.sin(degrees * Math.PI / 180), turned = [u[0] * c - u[2] * s, 0, u[2] * c + u[0] * s] as const;
        const middle = [tip[0] + turned[0] * 0.2 * foot.lengthMm, 0, tip[2] + turned[2] * 0.2 * foot.lengthMm] as const;
        expect(girthByCauchy(form, middle, turned, v, 0.42 * foot.lengthMm, 0.008 * foot.lengthMm)).toBeGreaterThan(0.99 * foot.heelDiagonalMm);
      }
    }
  }, 60_000);
});
