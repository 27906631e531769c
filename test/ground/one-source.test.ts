import { expect, it } from 'vitest';
import { SURVEY } from '../../src/foot/estimate-measures.ts';
import { MEASURE_NAMES } from '../../src/foot/foot-measures.ts';
import { PRESSURE_LIMITS } from '../../src/measure/judge-pressure.ts';
import { isBelowAdults } from '../../src/panel/fit-words.ts';
import { PRESSURE_SCALE } from '../../src/view/colour-scale.ts';

// Rooms of the page may not import values from the core, so a number that both need is written twice: here the two are held together.
it('the marks of the pressure colours are the limits that the words go by', () => {
  expect((PRESSURE_SCALE.marks ?? []).map((mark) => mark.value)).toEqual(Object.values(PRESSURE_LIMITS));
});

it('a foot counts as a child\'s below the shortest of the survey', () => {
  const shortest = SURVEY.least[MEASURE_NAMES.indexOf('lengthMm')];
  expect([isBelowAdults(shortest - 1), isBelowAdults(shortest)]).toEqual([true, false]);
});
