/**
 * Control points of a piece of yarn. Every formed thing (a loop, a wrap, a stitch of a graft, of a
 * bind-off or of a seam, a tail) is one piece, so that the picture can draw them all as instances of one shape.
 */
export const PIECE_POINTS = 12;

/** Numbers of `YarnLay.points` a control point: x, y, z (mm), and mm of yarn from the length's first end. */
export const POINT_STRIDE = 4;

/** What a piece is. */
export const PART = { loop: 0, wrap: 1, graft: 2, bindOff: 3, seam: 4, tail: 5 } as const;

/** The order in which yarn runs through a fabric, whatever its shape. Arrays run over pieces, in yarn order, unless said otherwise. */
export interface YarnThread {
  readonly pieceCount: number;
  /** PART code. */
  readonly part: Uint8Array;
  /** Loop of the grid that the piece is; a tail's is the loop it hangs from; a seam's the first of the two loops it sews together. */
  readonly loop: Int32Array;
  /** Second loop of a seam's pair, else -1. */
  readonly mate: Int32Array;
  readonly yarn: Uint8Array;
  /** Unbroken lengths of yarn: length k has the pieces lengthStart[k] up to lengthStart[k + 1]. */
  readonly lengthStart: Int32Array;
  /** All loops of the grid: the piece that a loop is, -1 for one that is not there. */
  readonly loopPiece: Int32Array;
}

/**
 * Centre lines of all yarn of a fabric in one shape: one uniform cubic B-spline for each length. Span s of piece p,
 * 0 <= s < PIECE_POINTS, has the control points PIECE_POINTS p + s and the three after it, none beyond the last
 * of its length, which stands in for them. So each length is one smooth line through all its pieces. Its first
 * three points and its last three are one each: the line begins and ends there.
 */
export interface YarnLay {
  readonly thread: YarnThread;
  /** POINT_STRIDE entries a control point. */
  readonly points: Float32Array;
  /**
   * Four entries a control point: the unit vector square to the yarn that points out of the fabric's outside there,
   * times 127; and how far the point lies outside the fabric's middle, in thicknesses of yarn, times 32.
   */
  readonly ups: Int8Array;
  /** Thickness of each yarn (by grid.yarn) as it lies in the fabric, mm. */
  readonly diameterMm: Float64Array;
}

/** Last control point of the length of yarn that a piece belongs to. */
export function lastPointOf(thread: YarnThread, piece: number): number {
  const { lengthStart } = thread;
  let low = 0, high = lengthStart.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (lengthStart[middle] <= piece) low = middle;
    else high = middle;
  }
  return PIECE_POINTS * lengthStart[low + 1] - 1;
}
