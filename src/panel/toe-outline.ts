import type { ToeStep } from '../plan/plan-types.ts';

export interface ToeShape {
  /** Stitches a bed before the first decrease. */
  readonly bedStitches: number;
  readonly steps: readonly ToeStep[];
  readonly stitchMm: number;
  readonly rowMm: number;
}

/** The two edges of a toe that lies flat, from the last round of the foot to its tip: x along the foot, y from its middle line, mm. */
export interface ToeOutline {
  readonly inner: readonly (readonly [x: number, y: number])[];
  readonly outer: readonly (readonly [x: number, y: number])[];
}

/** By counts alone: an edge moves in by a stitch with each decrease on its side, and on by a row with every two passes. */
export function outlineToe({ bedStitches, steps, stitchMm, rowMm }: ToeShape): ToeOutline {
  const half = bedStitches * stitchMm / 2;
  const inner: [number, number][] = [[0, half]], outer: [number, number][] = [[0, -half]];
  let x = 0, innerY = half, outerY = -half;
  for (const { ends, passes } of steps) {
    if (ends === 'both') innerY -= stitchMm;
    outerY += stitchMm;
    inner.push([x, innerY]);
    outer.push([x, outerY]);
    x += passes / 2 * rowMm;
  }
  return { inner: [...inner, [x, innerY]], outer: [...outer, [x, outerY]] };
}
