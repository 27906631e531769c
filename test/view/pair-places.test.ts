import { describe, expect, it } from 'vitest';
import { axesOf, PRESETS, type Vector } from '../../src/view/frame-camera.ts';
import { PAIR_GAP_MM, placePair } from '../../src/view/pair-places.ts';
import type { ViewPreset } from '../../src/view/sock-view-types.ts';

/** Corners of two boots of different size, mm. */
const SMALL = Float64Array.of(0, -40, 0, 0, 40, 0, 230, -40, 0, 230, 40, 0, 0, -30, 200, 90, 30, 200);
const LARGE = Float64Array.of(0, -55, -10, 0, 55, -10, 290, -55, 0, 290, 55, 0, 0, -30, 320, 90, 30, 320);

const reach = (points: Float64Array, place: Vector, right: Vector): readonly [number, number] => {
  const along = Array.from({ length: points.length / 3 }, (_, i) => [0, 1, 2].reduce((sum, d) => sum + (points[3 * i + d] + place[d]) * right[d], 0));
  return [Math.min(...along), Math.max(...along)];
};

describe.each(Object.keys(PRESETS) as ViewPreset[])('two socks side by side, seen from the %s', (preset) => {
  const { right, forward } = axesOf(PRESETS[preset]), places = placePair(SMALL, LARGE, right);

  it('leave just the room between them, the second to the right', () => {
    expect(reach(LARGE, places.second, right)[0] - reach(SMALL, places.first, right)[1]).toBeCloseTo(PAIR_GAP_MM, 9);
  });

  it('stand on one height, and neither before the other', () => {
    expect([places.first[2], places.second[2]]).toEqual([0, 0]);
    const level: Vector = [forward[0], forward[1], 0];
    const middle = (points: Float64Array, place: Vector): number => { const [low, high] = reach(points, place, level); return (low + high) / 2; };
    // The middles of extents in x and y, not of those along the eye's way: alike for boxes of one middle, near for these.
    expect(Math.abs(middle(SMALL, places.first) - middle(LARGE, places.second))).toBeLessThan(25);
  });
});
