import { describe, expect, it } from 'vitest';
import type { Fabric } from '../../src/fabric/fabric.ts';
import { measurePose } from '../../src/measure/measure-pose.ts';
import type { Measures } from '../../src/measure/measures.ts';
import { lineLength, placePath, pointDistance } from '../../src/measure/polyline.ts';
import { knitSock } from '../../src/pipeline/knit-sock.ts';
import type { SockFile } from '../../src/plan/sock-file.ts';
import { makeStartShape } from '../../src/shape/start-shape.ts';

const SOCKS: readonly (readonly [string, SockFile])[] = [
  ['rib leg, decreased toe', { gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, counts: { stitches: 72, legPasses: 30, footPasses: 70 }, heel: { turnDownWidth: 12 } }],
  ['deep heel with a plateau', { gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, counts: { stitches: 60, legPasses: 24, footPasses: 60 }, heel: { turnDownWidth: 6, plateauPasses: 4 } }],
  ['coarse, tube leg, short-row toe', { gauge: { stitchesPer10cm: 20, rowsPer10cm: 28 }, counts: { stitches: 48, legPasses: 20, footPasses: 50 }, leg: { kind: 'tube' }, toe: { kind: 'short-row', tipStitches: 8 } }],
];

function knit(file: SockFile): Fabric {
  const { sock, problems } = knitSock(file);
  if (sock === null) throw new Error(JSON.stringify(problems));
  return sock.fabric;
}

/** Any point through a rotation about a skew axis (rows of an orthogonal matrix), a scale and a shift. */
function move(positions: Float64Array, scale: number): Float64Array {
  const [c, s] = [Math.cos(0.7), Math.sin(0.7)];
  const [d, t] = [Math.cos(-1.9), Math.sin(-1.9)];
  return positions.map((_, i) => {
    const [x, y, z] = positions.subarray(i - (i % 3), i - (i % 3) + 3);
    const [u, v, w] = [c * x - s * y, s * x + c * y, z];
    return scale * [u, d * v - t * w, t * v + d * w][i % 3] + 40 * (i % 3) - 17;
  });
}

const expectLike = (found: Measures, expected: Measures, scale: number): void => {
  for (const key of Object.keys(expected) as (keyof Measures)[]) {
    const factor = key === 'legFootAngleDeg' ? 1 : scale;
    expect(found[key], key).not.toBeNull();
    expect(found[key]! / (factor * expected[key]!), key).toBeCloseTo(1, 6);
  }
};

describe.each(SOCKS)('measures of a shaped sock: %s', (_name, file) => {
  const fabric = knit(file);
  const positions = makeStartShape(fabric, 'round');
  const { measures, lines } = measurePose(fabric, positions);

  it('stay as they are however the sock lies and in a mirror, and grow with it', () => {
    expectLike(measurePose(fabric, move(positions, 1)).measures, measures, 1);
    expectLike(measurePose(fabric, move(positions, 1.7)).measures, measures, 1.7);
    expectLike(measurePose(fabric, positions.map((value, i) => (i % 3 === 1 ? -value : value))).measures, measures, 1);
  });

  /** Geometry: the marked line runs over instep and heel too, so it cannot be shorter than the shortest that does; no way out and back is shorter than straight through the air. */
  it('have a shortest line over the heel between the marked one and twice the way through the air', () => {
    expect(measures.heelTipGirthMm!).toBeLessThan(1.005 * measures.heelDiagonalMm!);
    const base = placePath(fabric.marks!.baseMiddle, positions);
    const front = placePath(fabric.marks!.centreFront, positions);
    const straight = Math.min(...Array.from({ length: front.length / 3 }, (_, i) => pointDistance(base, 0, front, i)));
    expect(measures.heelTipGirthMm!).toBeGreaterThan(2 * straight);
  });

  it('are as long as the lines that show them', () => {
    for (const key of ['footLengthMm', 'heelDepthMm', 'heelDiagonalMm', 'heelTipGirthMm', 'throatToHeelMm', 'toeLengthMm'] as const) {
      const drawn = lineLength(lines[key]!);
      expect(drawn / measures[key]!, key).toBeGreaterThan(0.98);
      expect(drawn / measures[key]!, key).toBeLessThan(1 + 1e-9);
    }
  });

  it('have lines over the heel that end where they began', () => {
    for (const key of ['heelTipGirthMm', 'heelDiagonalMm', 'footGirthMm'] as const) {
      const line = lines[key]!;
      for (let d = 0; d < 3; d++) expect(line.at(d - 3)).toBeCloseTo(line[d], 9);
    }
  });
});
