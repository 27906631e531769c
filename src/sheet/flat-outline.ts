import type { Fabric } from '../fabric/fabric.ts';
import { cutByPlane } from '../measure/level-lines.ts';
import { placePath } from '../measure/polyline.ts';
import { buildSurface } from '../measure/surface.ts';

/** A sock laid flat, as lines in its plane: two entries a point, across and downwards, mm. */
export interface SockOutline {
  /** Closed, round the whole sock. */
  readonly edge: readonly number[];
  /** The heel's slanted edge and the toe's first round. */
  readonly lines: readonly (readonly number[])[];
}

/** The plane between the two layers of a sock laid flat, and the way to its left layer. */
const MIDDLE = [0, 0, 0], TO_LEFT = [0, 1, 0];

/**
 * The outline of a sock laid flat: along the fold between its two layers, down the front, round the
 * toe and up the back, and along the cuff's edge. Heel and toe are marked by the lines that a
 * knitter sees there. Null for a fabric that is no sock.
 */
export function drawFlatOutline(fabric: Fabric, positions: Float64Array): SockOutline | null {
  const { marks } = fabric;
  if (marks === null) return null;
  // The fold of a slanted toe leaves the middle of the beds: it is where the layers meet.
  const folds = cutByPlane(buildSurface(fabric, positions), MIDDLE, TO_LEFT).map(({ points }) => points);
  const fold = folds.reduce<Float64Array | null>((longest, line) => (line.length > (longest?.length ?? 0) ? line : longest), null);
  if (fold === null) return null;
  const lastRound = marks.footRounds.at(-1);
  return {
    edge: [...placeInPlane(fold), ...placeInPlane(cuffBetween(fabric, positions, fold))],
    lines: [marks.mitreLeft, ...(lastRound === undefined ? [] : [lastRound])].map((path) => placeInPlane(placePath(path, positions))),
  };
}

/** The left layer's cast-on loops, from the fold's end to its beginning. */
function cuffBetween({ boundaryVertices }: Fabric, positions: Float64Array, fold: Float64Array): Float64Array {
  const isLeft = (place: number): boolean => positions[3 * boundaryVertices[place % boundaryVertices.length] + 1] >= 0;
  const count = boundaryVertices.length, first = boundaryVertices.findIndex((_, place) => isLeft(place) && !isLeft(place + count - 1));
  const points: number[][] = [];
  for (let place = first; first >= 0 && points.length < count && isLeft(place); place++) {
    const v = boundaryVertices[place % count];
    points.push([positions[3 * v], positions[3 * v + 1], positions[3 * v + 2]]);
  }
  const gap = ([x, , z]: readonly number[]): number => (x - fold[fold.length - 3]) ** 2 + (z - fold[fold.length - 1]) ** 2;
  if (points.length > 0 && gap(points[0]) > gap(points[points.length - 1])) points.reverse();
  return Float64Array.from(points.flat());
}

/** Across and downwards, mm: the sock lies on its side, x along the foot and z up the leg. */
function placeInPlane(line: Float64Array): number[] {
  const points: number[] = [];
  for (let i = 0; i < line.length; i += 3) points.push(line[i], -line[i + 2]);
  return points;
}
