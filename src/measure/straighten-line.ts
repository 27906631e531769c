import { buildStrip, detourStrip, trimStrip, turnBehind } from './face-strip.ts';
import { findTurns, traceStrip, unfoldStrip } from './unfold-strip.ts';
import type { Hop } from './search-nodes.ts';
import type { Surface } from './surface.ts';
import type { SurfacePoint } from './surface-point.ts';

export interface SurfaceLine {
  /** Three entries a point; every piece lies in one triangle. */
  readonly points: Float64Array;
  readonly lengthMm: number;
}

/** Angles within this of a half turn count as straight. */
const STRAIGHT_RAD = 1e-9;

/**
 * Pulls a line tight: the locally shortest line that can be reached from the given steps without
 * leaving the surface. The triangles that it passes are unfolded into the plane and the shortest
 * line in that strip is found exactly (the funnel of Lee and Preparata, Networks 14 (1984) 393);
 * where it turns about a corner behind which less than a half turn of surface lies, the strip is
 * led round the corner's other side, and so on until no turn can be undone. The old line
 * still fits the new strip, touching the corner, and is not the shortest there, so each change makes it
 * shorter, so it ends. Null where no strip of triangles follows the steps. Corners with more than a full turn of fabric may stay turned about.
 */
export function straightenLine(surface: Surface, from: SurfacePoint, to: SurfacePoint, hops: readonly Hop[]): SurfaceLine | null {
  const first = buildStrip(surface, hops);
  if (first === null) return null;
  let strip = trimStrip(surface, { from, to, triangles: first });
  // A strip cannot be changed more often than there are corners to pass; the bound only guards against rounding.
  for (let round = 0; round < 20 * strip.triangles.length + 1000; round++) {
    const unfolded = unfoldStrip(surface, strip);
    const turns = findTurns(unfolded);
    const loose = turns.filter((turn) => turnBehind(surface, turn) < Math.PI - STRAIGHT_RAD);
    const triangles = detourStrip(surface, strip.triangles, loose);
    if (triangles === null) return traceStrip(surface, unfolded, turns);
    strip = trimStrip(surface, { from: strip.from, to: strip.to, triangles });
  }
  const unfolded = unfoldStrip(surface, strip);
  return traceStrip(surface, unfolded, findTurns(unfolded));
}
