import { PIECE_POINTS, POINT_STRIDE } from '../yarn/yarn-lay.ts';

/** Pieces of yarn that are kept or left out together: neighbours along the yarn. */
export const BLOCK_PIECES = 8;

/** Entries a block: a sphere about all its yarn, x, y, z and radius, mm. */
const SPHERE = 4;

/** Spheres about blocks of pieces, from their control points: a B-spline lies within the hull of its own. A piece's yarn reaches three points into the next. */
export function boundBlocks(points: Float32Array, pieceCount: number, radiusMm: number): Float64Array {
  const blocks = Math.ceil(pieceCount / BLOCK_PIECES), spheres = new Float64Array(SPHERE * blocks), end = PIECE_POINTS * pieceCount;
  for (let block = 0; block < blocks; block++) {
    const from = block * BLOCK_PIECES * PIECE_POINTS, to = Math.min(end, from + BLOCK_PIECES * PIECE_POINTS + 3);
    let square = 0;
    for (let d = 0; d < 3; d++) {
      const [low, high] = rangeOf(points, POINT_STRIDE * from + d, POINT_STRIDE * to);
      spheres[SPHERE * block + d] = (low + high) / 2;
      square += ((high - low) / 2) ** 2;
    }
    spheres[SPHERE * block + 3] = Math.sqrt(square) + radiusMm;
  }
  return spheres;
}

/** Of one entry of the points from one up to another. */
function rangeOf(points: Float32Array, from: number, to: number): readonly [low: number, high: number] {
  let low = Infinity, high = -Infinity;
  for (let at = from; at < to; at += POINT_STRIDE) {
    const value = points[at];
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return [low, high];
}

/** Six planes, four entries each: normal pointing in, and offset. */
export type Planes = ArrayLike<number>;

/** Writes the numbers of all pieces into `out` whose block is not wholly outside one of the planes; returns how many. */
export function gatherPieces(out: Uint32Array, spheres: Float64Array, pieceCount: number, planes: Planes): number {
  let count = 0;
  for (let block = 0; SPHERE * block < spheres.length; block++) {
    if (isOutside(spheres, SPHERE * block, planes)) continue;
    const end = Math.min(pieceCount, (block + 1) * BLOCK_PIECES);
    for (let piece = block * BLOCK_PIECES; piece < end; piece++) out[count++] = piece;
  }
  return count;
}

function isOutside(spheres: Float64Array, at: number, planes: Planes): boolean {
  for (let k = 0; k < planes.length; k += 4) {
    const distance = planes[k] * spheres[at] + planes[k + 1] * spheres[at + 1] + planes[k + 2] * spheres[at + 2] + planes[k + 3];
    if (distance < -spheres[at + 3]) return true;
  }
  return false;
}
