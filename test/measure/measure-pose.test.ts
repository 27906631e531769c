import { describe, expect, it } from 'vitest';
import { measurePose } from '../../src/measure/measure-pose.ts';
import { lineLength } from '../../src/measure/polyline.ts';
import { makeTube, markPath } from './make-tube.ts';

/** Closed forms: geometry. Lines on inscribed meshes come out short by up to (pi / stitches)^2 / 6. */
const TOLERANCE = 0.005;
const RADIUS = 38;
const ROW = 2.4;

const cylinder = (turn: number, row: number): [number, number, number] => [
  RADIUS * Math.cos(2 * Math.PI * turn), RADIUS * Math.sin(2 * Math.PI * turn), ROW * row,
];

/** Relative difference, so that a null fails. */
const miss = (value: number | null, expected: number): number => Math.abs((value ?? 0) / expected - 1);

describe.each([24, 48, 72, 120])('a tube of %i stitches', (stitches) => {
  it('has its girth, without the step of a knitted round', () => {
    const { fabric, positions } = makeTube(stitches, 40, cylinder);
    const { measures, lines } = measurePose(fabric, positions);
    expect(miss(measures.footGirthMm, 2 * Math.PI * RADIUS)).toBeLessThan(TOLERANCE);
    expect(miss(lineLength(lines.footGirthMm!), 2 * Math.PI * RADIUS)).toBeLessThan(TOLERANCE);
  });

  it('is crossed square to its axis by the shortest closed line through a point', () => {
    const { fabric, positions } = makeTube(stitches, 40, cylinder);
    expect(miss(measurePose(fabric, positions).measures.heelTipGirthMm, 2 * Math.PI * RADIUS)).toBeLessThan(TOLERANCE);
  });

  it('laid flat is twice its width round', () => {
    const flat = (turn: number, row: number): [number, number, number] => {
      const s = (turn - 0.5 / stitches) % 1;
      return [ROW * row, 0, 200 * Math.abs(s - 0.5)];
    };
    const { fabric, positions } = makeTube(stitches, 40, flat);
    const { measures } = measurePose(fabric, positions);
    expect(miss(measures.footGirthMm, 200)).toBeLessThan(TOLERANCE);
  });

  it('as a cone is girdled by a chord of the unrolled cone', () => {
    const [sine, slant] = [0.12, 300];
    const cone = (turn: number, row: number): [number, number, number] => {
      const s = slant + ROW * (row - 20);
      return [s * sine * Math.cos(2 * Math.PI * turn), s * sine * Math.sin(2 * Math.PI * turn), s * Math.sqrt(1 - sine * sine)];
    };
    const { fabric, positions } = makeTube(stitches, 40, cone);
    const base = slant + ROW * (-0.5 / stitches);
    const loop = measurePose(fabric, positions).measures.heelTipGirthMm;
    expect(miss(loop, 2 * base * Math.sin(Math.PI * sine))).toBeLessThan(TOLERANCE);
    expect(miss(loop, 2 * Math.PI * base * sine)).toBeGreaterThan(TOLERANCE);
  });
});

describe('a fabric that lacks parts', () => {
  it('has no measures without marks', () => {
    const { fabric, positions } = makeTube(24, 6, cylinder);
    const { measures, lines } = measurePose({ ...fabric, marks: null }, positions);
    expect(Object.keys(measures)).toHaveLength(10);
    expect(Object.values(measures).every((value) => value === null)).toBe(true);
    expect(lines).toEqual({});
  });

  it('has no measures along empty lines, and keeps the others', () => {
    const { fabric, positions } = makeTube(24, 12, cylinder);
    const marks = { ...fabric.marks!, baseMiddle: markPath([]), legRounds: [] };
    const { measures } = measurePose({ ...fabric, marks }, positions);
    for (const key of ['footLengthMm', 'heelDepthMm', 'heelDiagonalMm', 'heelTipGirthMm', 'throatToHeelMm', 'toeLengthMm', 'legLengthMm', 'toeTipWidthMm', 'legFootAngleDeg'] as const) {
      expect(measures[key], key).toBeNull();
    }
    expect(measures.footGirthMm).not.toBeNull();
  });
});

describe('the angle between leg and foot', () => {
  it.each([180, 120, 90, 65])('of a pipe bent to %i degrees is found', (degrees) => {
    const bend = Math.PI - (degrees * Math.PI) / 180;
    const { fabric, positions } = makeTube(24, 40, (turn, row) => {
      const [x, y, z] = cylinder(turn, row - 20);
      if (row < 20) return [x, y, z];
      return [x * Math.cos(bend) + z * Math.sin(bend), y, z * Math.cos(bend) - x * Math.sin(bend)];
    });
    const rounds = fabric.marks!.footRounds;
    const marks = { ...fabric.marks!, legRounds: rounds.slice(0, 18), footRounds: rounds.slice(22) };
    const { measures } = measurePose({ ...fabric, marks }, positions);
    expect(Math.abs(measures.legFootAngleDeg! - degrees)).toBeLessThan(0.5);
  });
});
