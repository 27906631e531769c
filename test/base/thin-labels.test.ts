import { expect, it } from 'vitest';
import { thinLabels } from '../../src/base/thin-labels.ts';

const scale = (count: number, apart: number, half: number): Parameters<typeof thinLabels>[0] =>
  Array.from({ length: count }, (_, i) => ({ at: i * apart, half, strength: i % 10 === 0 ? 2 : i % 5 === 0 ? 1 : 0 }));
const shownOf = (labels: Parameters<typeof thinLabels>[0]): number[] => thinLabels(labels).flatMap((isShown, i) => (isShown ? [i] : []));

it('shows all, the fifths or the tenths, as there is room', () => {
  expect(shownOf(scale(21, 10, 5)).length).toBe(21);
  expect(shownOf(scale(21, 3, 5))).toEqual([0, 5, 10, 15, 20]);
  expect(shownOf(scale(21, 1.2, 5))).toEqual([0, 10, 20]);
});

it('never shows two that touch, of the strongest as many as find room', () => {
  const labels = [{ at: 0, half: 3, strength: 2 }, { at: 4, half: 3, strength: 2 }, { at: 8, half: 3, strength: 2 }, { at: 12, half: 3, strength: 0 }];
  expect(shownOf(labels)).toEqual([0, 2]);
});

it('of weaker ones shows nearly all or none: no odd few between the fifths', () => {
  // Ones and tens take more room than ones: 1 to 9 would fit, 11 to 14 would not.
  const labels = Array.from({ length: 20 }, (_, i) => ({ at: 10 * i, half: i < 10 ? 4 : 8, strength: i % 5 === 0 ? 1 : 0 }));
  expect(shownOf(labels)).toEqual([0, 5, 10, 15]);
});

it('lets one of two go that meet at a seam', () => {
  const labels = Array.from({ length: 20 }, (_, i) => ({ at: 10 * i + (i >= 10 ? -6 : 0), half: 5, strength: 0 }));
  expect(shownOf(labels).length).toBe(19);
});
