/**
 * The stitch grid: every loop that a program forms, in the order of forming. Arrays run over
 * loops unless said otherwise; -1 means none. Directions are as seen from outside the fabric.
 */
export interface StitchGrid {
  readonly loopCount: number;
  /** LOOP code. */
  readonly kind: Uint8Array;
  /** Pass in which the loop was formed, 1-based; 0 for the cast-on; wraps and closings carry the pass they follow. */
  readonly pass: Int32Array;
  /** BED code and needle (1-based) on which the loop was formed. */
  readonly bed: Uint8Array;
  readonly needle: Int16Array;
  readonly yarn: Uint8Array;
  /** SECTION code. */
  readonly section: Uint8Array;
  /** 1 where the outside of the fabric shows the purl side of the loop (half the loops of a rib). */
  readonly isPurl: Uint8Array;
  /** 1 for loops of a row that both beds knitted together. */
  readonly isRib: Uint8Array;
  /** Needles that the loop was moved along its bed before it was knitted: to the right positive. */
  readonly lean: Int8Array;
  /** Loops that loop i was drawn through: parents[parentStart[i] .. parentStart[i + 1]), left to right as seen from outside. */
  readonly parentStart: Int32Array;
  readonly parents: Int32Array;
  /** The loop drawn through loop i. */
  readonly child: Int32Array;
  /** Neighbours along the unbroken yarn, wraps included. */
  readonly yarnBefore: Int32Array;
  readonly yarnAfter: Int32Array;
  /** Neighbours along the course, wraps left out, breaks in the yarn bridged where the knitting goes on beside them. */
  readonly leftOf: Int32Array;
  readonly rightOf: Int32Array;
  /** For a wrap, the held loop round which it lies. */
  readonly wrapHost: Int32Array;
  /** Bit 1: nothing of the fabric lies to the left of the loop (selvedge); bit 2: to the right. */
  readonly selvedge: Uint8Array;
  /** Pairs of loops, two entries a pair. */
  readonly mitrePairs: Int32Array;
  readonly seamPairs: Int32Array;
  /** Graft or bind-off, loop to loop. */
  readonly joinPairs: Int32Array;
  /** The closing edge of a closed cast-on (last loop, first loop), else empty. */
  readonly ringPair: Int32Array;
  /** Loops still live when the program ended. */
  readonly live: Int32Array;
}
