import type { Bed } from '../plan/sock-file.ts';
import type { Side } from '../plan/step.ts';

/** What a chart shows: all of the sock, or its heel or toe alone. */
export type ChartPart = 'sock' | 'heel' | 'toe';

/** Where the tube is cut open to lie in a plane: between the beds, heel and instep side by side; or down the centre back, where the seam is. */
export type ChartCut = 'beds' | 'seam';

/** One pass at the chart's margin. */
export interface ChartPass {
  readonly pass: number;
  readonly row: number;
  /** Margin at which it is numbered. */
  readonly margin: Side;
  /** Side from which the carriage crosses, as one stands before the machine. The cast-on has the side where its yarn ends. */
  readonly from: Side;
  readonly yarn: number;
  /** Columns of its first and last cells. */
  readonly left: number;
  readonly right: number;
}

/** A needle over or under a column. `edge`: the chart's foot or its head. */
export interface ChartNeedle { readonly edge: 'foot' | 'head'; readonly column: number; readonly bed: number; readonly needle: number }

/** Columns side by side from `left` to before `right` that one bed knits, and the part of the foot that it carries; null where that goes without saying. */
export interface ChartStretch { readonly left: number; readonly right: number; readonly bed: Bed; readonly carries: 'heel' | 'sole' | 'instep' | null }

/** From a loop's cell to the cell of the loop drawn through it, where that is not the next one up. */
export interface ChartThread {
  readonly from: number;
  readonly to: number;
  /** Waiting in hold; on a bed at rest; or taken over into another column by a decrease. */
  readonly kind: 'held' | 'resting' | 'taken';
}

/**
 * Stitches in a plane, in courses and wales, as seen from the outside of the fabric: columns from the left, rows from the
 * bottom. Every loop has one cell, but a wrap, which is a mark on the cell of the loop that it lies round.
 */
export interface ChartModel {
  readonly part: ChartPart;
  readonly cut: ChartCut;
  readonly columnCount: number;
  readonly rowCount: number;
  /** A stitch of the fabric. */
  readonly cellWidthMm: number;
  readonly cellHeightMm: number;
  readonly cellCount: number;
  /** By cell: its loop, place, CHART_MARK bits, and 1 where it is shown only to say where the part joins the rest. */
  readonly loop: Int32Array;
  readonly column: Int32Array;
  readonly row: Int32Array;
  readonly marks: Int32Array;
  readonly isBeside: Uint8Array;
  readonly yarn: Uint8Array;
  readonly pass: Int32Array;
  /** The pass before which its needle goes into hold with it; 0 for none. */
  readonly heldBefore: Int32Array;
  /** By loop of the whole sock: its cell, a wrap's is its loop's; -1 for none. */
  readonly cellOfLoop: Int32Array;
  /** By place, row by row: its cell or -1. */
  readonly cellAt: Int32Array;
  readonly threads: readonly ChartThread[];
  /** In the order of knitting. */
  readonly passes: readonly ChartPass[];
  readonly needles: readonly ChartNeedle[];
  /** Columns that begin another bed of the tube, the first apart. */
  readonly bedEdges: readonly number[];
  readonly stretches: readonly ChartStretch[];
  /** Whether the rows at its foot are a flat leg's, knitted on both beds at once. */
  readonly hasFlatLeg: boolean;
  /** Passes after which a corner wrap of it is laid. */
  readonly cornerPasses: readonly number[];
}
