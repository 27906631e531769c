/** What a needle does while the carriage passes, in order (common knowledge of weft knitting with latch needles). */
export const STAGES = ['rest', 'clear', 'feed', 'close', 'cast-off', 'draw', 'done'] as const;
export type FormStage = typeof STAGES[number];

/** Where each stage begins on a needle's own way through the pass, 0..1; the last is over at 1. Their timing is chosen by eye. */
export const STAGE_START: Readonly<Record<FormStage, number>> = { rest: 0, clear: 0.06, feed: 0.3, close: 0.47, 'cast-off': 0.61, draw: 0.71, done: 0.97 };

/** Sizes of a needle, of its ways and of its bed, mm. Along the needle is counted from where the old loops rest on the bed's edge, forwards. */
export interface NeedleSizes {
  /** Half the thickness of the stem. */
  readonly stem: number;
  /** From the axis to the outside of the hook. */
  readonly hook: number;
  /** From the inside of the hook's bend back to the latch's pivot, and the latch. */
  readonly pivot: number;
  readonly latch: number;
  /** Where the bend stands: with its loop at rest, and pushed forward. */
  readonly rest: number;
  readonly clear: number;
  /** Where the feeder lays the yarn over the stem. */
  readonly feed: number;
  /** Where an old loop waits on the stem, and where the yarn between two needles lies on the bed's edge. */
  readonly wait: number;
  readonly edge: number;
}

/** A plain latch needle in proportion to its pitch and yarn; all chosen by eye. */
export function sizeNeedle(pitchMm: number, diameterMm: number): NeedleSizes {
  const stem = 0.085 * pitchMm, unit = Math.max(pitchMm, 4 * diameterMm) / 4.5, wait = 0.4 * unit;
  return {
    stem, hook: stem + 1.15 * diameterMm + 0.3 * unit, pivot: 2.5 * unit, latch: 2.3 * unit, rest: 1.7 * unit, clear: wait + 5.6 * unit, feed: wait + 4.3 * unit,
    wait, edge: wait + 0.9 * diameterMm + 0.2 * unit,
  };
}

/** Runs from 0 at `from` to 1 at `to` with no edge at either end. */
export function ease(at: number, from: number, to: number): number {
  const t = Math.min(1, Math.max(0, (at - from) / (to - from)));
  return t * t * (3 - 2 * t);
}

export const mix = (a: number, b: number, share: number): number => a + share * (b - a);

/** When the needle stands deepest in its bed: the new loop is drawn. */
export const DRAWN = 0.8;

/** Where the hook's bend stands on the needle's own way through the pass; `depth` so far behind the edge it draws the new loop. */
export function reachOf(own: number, size: NeedleSizes, depth: number): number {
  if (own <= 0.38) return mix(size.rest, size.clear, ease(own, STAGE_START.clear, 0.3));
  if (own <= DRAWN) return mix(size.clear, -depth, ease(own, 0.4, DRAWN));
  return mix(-depth, size.rest, ease(own, DRAWN, 1));
}

/** How far the new loop's feet have come to lie in the old loop as in the fabric, 0..1. */
export function claspedAt(own: number): number { return ease(own, 0.69, DRAWN); }

/** How far the bed's weights have pulled the new loop and all below it down by a row, 0..1. */
export function pulledDown(own: number): number { return ease(own, DRAWN, 1); }

/** Where the first of a needle's old loops stands along it: in the hook at rest, held back by the weights when the needle goes forward. */
export function waitingAt(own: number, size: NeedleSizes): number { return mix(size.rest, size.wait, ease(own, STAGE_START.clear, 0.28)); }

/** Angle by which the latch stands open: 0 on the hook, pi back along the stem. The old loop swings it, both ways. */
export function latchOf(own: number, size: NeedleSizes, depth: number): number {
  const behind = reachOf(own, size, depth) - waitingAt(own, size), { pivot, latch } = size;
  if (own < 0.35) return Math.PI * ease(behind, 0.25 * pivot, 1.1 * pivot);
  return own > DRAWN ? 0 : Math.PI * ease(behind, 0.45 * pivot, pivot + 0.75 * latch);
}

/** How high over the axis an old loop so far behind the bend lies: on the stem, over the open latch, or over the closed one and the hook. */
export function clearanceOf(behind: number, own: number, size: NeedleSizes): number {
  const { stem, hook, pivot, latch } = size, open = stem + 0.35 * (hook - stem);
  if (own < 0.35) return mix(stem, open, ease(behind, 0.6 * pivot, pivot) * (1 - ease(behind, pivot + latch, pivot + 1.15 * latch)));
  return mix(stem, hook, ease(-behind, -0.95 * pivot, -0.45 * pivot));
}

export function stageOf(own: number): FormStage {
  let found: FormStage = 'rest';
  for (const stage of STAGES) if (own >= STAGE_START[stage]) found = stage;
  return found;
}
