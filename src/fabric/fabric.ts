/**
 * Points on the fabric, each on the line from vertex a to vertex b: (1 - t) a + t b.
 * Consecutive points share a cell or an edge, so the path can be drawn on any pose.
 */
export interface MarkPath {
  readonly a: Int32Array;
  readonly b: Int32Array;
  readonly t: Float64Array;
  readonly isClosed: boolean;
}

/** The lines of a sock that measures and pictures refer to. Left and right are the foot's. */
export interface FabricMarks {
  /** Exactly the cast-on loops. */
  readonly cuff: MarkPath;
  /** Along the middle of the instep bed, cuff to toe tip. */
  readonly centreFront: MarkPath;
  /** Along the middle of the heel bed, cuff over heel and sole to the toe tip. */
  readonly centreBack: MarkPath;
  /** Between the beds, cuff to toe, through the heel corners: along a row where these lie farther forward. */
  readonly sideLeft: MarkPath;
  readonly sideRight: MarkPath;
  /** From heel corner to the end of the short base. */
  readonly mitreLeft: MarkPath;
  readonly mitreRight: MarkPath;
  /** Last full row before the heel, over the heel bed. */
  readonly heelFirstRow: MarkPath;
  /** The row across the middle of the plateau (without plateau: the last turning-down pass). */
  readonly shortBase: MarkPath;
  /** One point each. */
  readonly baseMiddle: MarkPath;
  readonly instepAtHeel: MarkPath;
  /** Closed: instep at the heel's level, mitre, short base, mitre. */
  readonly heelDiagonal: MarkPath;
  /** A closed round for each round of the foot, in order. */
  readonly footRounds: readonly MarkPath[];
  /** Closed rounds of leg and ankle, from the cuff down. */
  readonly legRounds: readonly MarkPath[];
  /** Across the last round, from one side to the other (short-row toe: its short base). */
  readonly toeTip: MarkPath;
  /** Side line from the last foot round to the tip, of a slanted toe that of the great toe (short-row toe: the centre line of its first half). */
  readonly toeLength: MarkPath;
}

/** Codes of `Fabric.edgeKind`. */
export const EDGE = { course: 0, wale: 1, seam: 2, join: 3, mitre: 4 } as const;

/**
 * The cloth as a mesh of polygons: one vertex a loop (cast-on and knitted), cells the smallest
 * polygons that the stitch grid's edges bound. Lengths in millimetres.
 */
export interface Fabric {
  readonly vertexCount: number;
  /** Loop of the grid that each vertex stands for, and back (-1 for loops that are no vertex). */
  readonly vertexLoop: Int32Array;
  readonly loopVertex: Int32Array;
  /** SECTION code and pass of each vertex. */
  readonly vertexSection: Uint8Array;
  readonly vertexPass: Int32Array;
  /** Place around the tube in turns: 0 centre back, 0.25 the left side, 0.5 centre front, 0.75 the right side. By needle; over a decreased toe counted from the middle of each round, which a slanted toe moves. */
  readonly vertexAround: Float64Array;
  /** Rows (not mm) along the wale from the cast-on, the heel's and a short-row toe's own rows left out: rounds of tube. */
  readonly vertexRow: Float64Array;
  /** 0..1 through a short-row heel or toe, along each wale; 0 before it and 1 after it. Which one, see vertexSection. */
  readonly vertexFan: Float64Array;

  /** Two vertices an edge; each pair once. */
  readonly edges: Int32Array;
  readonly edgeKind: Uint8Array;
  readonly edgeRestMm: Float64Array;

  /** Cell c has corners cellVertices[cellStart[c] .. cellStart[c + 1]), counter-clockwise seen from outside. */
  readonly cellStart: Int32Array;
  readonly cellVertices: Int32Array;
  /** Flat rest shape: two entries a corner, (along the course to the right, along the wale upwards), mm. A simple polygon, counter-clockwise; corners may be straight. */
  readonly cellRestMm: Float64Array;
  /** 1 where the cell is rib. */
  readonly cellIsRib: Uint8Array;

  /** Closed boundaries, walked with the fabric on the left. */
  readonly boundaryStart: Int32Array;
  readonly boundaryVertices: Int32Array;

  /** Null for a fabric that is no sock. */
  readonly marks: FabricMarks | null;
  /** Rest width and height of one plain stitch, and width of one rib stitch. */
  readonly courseMm: number;
  readonly waleMm: number;
  readonly ribCourseMm: number;
}
