import type { Plan, ToeStep } from '../plan/plan-types.ts';

export interface ToeShape {
  readonly kind: Plan['toeKind'];
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

/** Each row of a short-row toe has a stitch less than the one before, at one end and at the other in turn: its folded edge runs in as if by a decrease every second row. */
const SHORT_ROW_STEP: ToeStep = { ends: 'both', passes: 4 };

export function toeShapeOf({ toeKind, toeTipStitches, bedStitches, toeSteps, stitchesPerMm, rowsPerMm }: Plan): ToeShape {
  const steps = toeKind === 'short-row' ? Array<ToeStep>((bedStitches - toeTipStitches) / 2).fill(SHORT_ROW_STEP) : toeSteps;
  return { kind: toeKind, bedStitches, steps, stitchMm: 1 / stitchesPerMm, rowMm: 1 / rowsPerMm };
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
