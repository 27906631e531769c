import type { Fabric } from '../fabric/fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';
import { LOOK, loopLooks } from './loop-looks.ts';
import { CORNER_STRIDE, type StitchFrames, stitchFrames } from './stitch-frames.ts';
import { triangulatePolygon } from '../base/triangulate.ts';

/** Flags beside the corner count in `cellOf`. */
export const CELL_RIB = 256;
export const CELL_HEM = 512;
/** A cell of four loops at the corners of a unit square: its look-up is done for the whole cell at once. */
export const CELL_REGULAR = 1024;
/**
 * How much a cell asks of the shader, and its group in the index: regular cells of knit stitches
 * alone; other regular cells of knit and purl; everything else.
 */
export const CELL_KINDS = ['plain', 'rib', 'special'] as const;
/** Texels in a row of the corner texture (two a corner) and of the loop texture. */
export const TEXTURE_WIDTH = 1024;
/** How far the rolled edge reaches beyond a boundary's loops, in rows; chosen by eye. */
export const HEM_ROWS = 0.5;

/**
 * The cloth as triangles, free of any drawing library. Drawn vertices 0 .. cellVertices.length
 * are the cells' corners in their order; after them come four for each boundary edge, a strip
 * that carries the rolled edge (two loops, then the same two moved outward).
 */
export interface ClothGeometry {
  readonly vertexCount: number;
  /** Fabric vertex of each drawn vertex. */
  readonly source: Int32Array;
  /** For the strip's outer vertices the other fabric vertex of their boundary edge, else -1. */
  readonly hemOther: Int32Array;
  /** Two entries a drawn vertex: its cell's first corner record, and corner count with CELL flags. */
  readonly cellOf: Int32Array;
  /** Four entries a drawn vertex: of a regular cell the fabric vertices lower left, lower right, upper left, upper right. */
  readonly quadOf: Int32Array;
  /** Two entries a drawn vertex, place in the cell's rest plane in usual stitches across and rows along; a regular cell's lower left is (0, 0). */
  readonly rest: Float32Array;
  /** Triangles, three drawn vertices each, sorted by the kinds of their cells. */
  readonly index: Uint32Array;
  /** First index entry of each kind, and the end of the last. */
  readonly kindStart: readonly number[];
  /** Corner records (stitch-frames.ts), padded to whole texture rows. */
  readonly corners: Float32Array;
  /** LOOK bits of each fabric vertex (loop-looks.ts). */
  readonly looks: Uint8Array;
}

/** Texels for so many entries in whole rows of a texture. */
export function paddedLength(texels: number): number {
  return Math.max(1, Math.ceil(texels / TEXTURE_WIDTH)) * TEXTURE_WIDTH;
}

const QUAD_BY_FIRST = [0, 1, 2, 0, 2, 3] as const, QUAD_BY_SECOND = [0, 1, 3, 1, 2, 3] as const;

function isConvexQuad(rest: Float64Array, k: number): boolean {
  for (let i = 0; i < 4; i++) {
    const a = 2 * (k + i), b = 2 * (k + ((i + 1) & 3)), c = 2 * (k + ((i + 2) & 3));
    const turn = (rest[b] - rest[a]) * (rest[c + 1] - rest[b + 1]) - (rest[b + 1] - rest[a + 1]) * (rest[c] - rest[b]);
    if (turn <= 1e-9) return false;
  }
  return true;
}

/** Corner numbers of a cell's triangles; a convex quad is cut by the diagonal that is shorter at rest. */
function cellTriangles(rest: Float64Array, k: number, end: number): readonly number[] {
  if (end - k !== 4 || !isConvexQuad(rest, k)) return triangulatePolygon(rest.subarray(2 * k, 2 * end));
  const square = (a: number, b: number): number => (rest[a] - rest[b]) ** 2 + (rest[a + 1] - rest[b + 1]) ** 2;
  return square(2 * k, 2 * k + 4) <= square(2 * k + 2, 2 * k + 6) * 1.001 ? QUAD_BY_FIRST : QUAD_BY_SECOND;
}

/** Bits that make a cell special wherever one of its loops has them. */
const SPECIAL_LOOKS = LOOK.stackedOver | LOOK.stackedUnder;

function kindsOfCells(fabric: Fabric, draft: Draft, looks: Uint8Array): Uint8Array {
  const { cellStart, cellVertices } = fabric, kinds = new Uint8Array(cellStart.length - 1);
  for (let cell = 0; cell < kinds.length; cell++) {
    const from = cellStart[cell], flags = draft.cellOf[2 * from + 1];
    let all = 0;
    for (let k = from; k < cellStart[cell + 1]; k++) all |= looks[cellVertices[k]];
    if ((flags & CELL_REGULAR) === 0 || (all & SPECIAL_LOOKS) !== 0) kinds[cell] = 2;
    else kinds[cell] = (flags & CELL_RIB) !== 0 || (all & LOOK.purl) !== 0 ? 1 : 0;
  }
  return kinds;
}

/** Triangles of all cells, sorted by kind, then of the hem's quads, which are special too. */
function indexByKind(fabric: Fabric, draft: Draft, looks: Uint8Array, hemCount: number): Pick<ClothGeometry, 'index' | 'kindStart'> {
  const { cellStart, cellRestMm } = fabric, kinds = kindsOfCells(fabric, draft, looks);
  const cornerCount = fabric.cellVertices.length;
  const index = new Uint32Array(3 * (cornerCount - 2 * kinds.length + 2 * hemCount));
  const kindStart = [0];
  let at = 0;
  for (let kind = 0; kind < CELL_KINDS.length; kind++) {
    for (let cell = 0; cell < kinds.length; cell++) {
      if (kinds[cell] !== kind) continue;
      const k = cellStart[cell], triangles = cellTriangles(cellRestMm, k, cellStart[cell + 1]);
      for (let i = 0; i < triangles.length; i++) index[at++] = k + triangles[i];
    }
    kindStart.push(at);
  }
  for (let k = cornerCount; k < cornerCount + 4 * hemCount; k += 4) {
    index.set([k + 1, k, k + 2, k + 1, k + 2, k + 3], at);
    at += 6;
  }
  kindStart[CELL_KINDS.length] = at;
  return { index, kindStart };
}

/** Vertex pairs of all boundary edges, fabric on the left. */
export function boundaryEdges(fabric: Fabric): number[] {
  const edges: number[] = [];
  const { boundaryStart, boundaryVertices } = fabric;
  for (let b = 0; b + 1 < boundaryStart.length; b++) {
    const from = boundaryStart[b], to = boundaryStart[b + 1];
    for (let i = from; i < to; i++) {
      edges.push(boundaryVertices[i], boundaryVertices[i + 1 < to ? i + 1 : from]);
    }
  }
  return edges;
}

/** Arrays of a cloth while it is filled. */
export type Draft = Pick<ClothGeometry, 'source' | 'hemOther' | 'cellOf' | 'quadOf' | 'rest' | 'corners'>;

function fillCells(draft: Draft, fabric: Fabric, frames: StitchFrames): void {
  const { cellStart, cellVertices } = fabric;
  draft.source.set(cellVertices);
  draft.rest.set(frames.rest);
  draft.corners.set(frames.corners);
  for (let cell = 0; cell + 1 < cellStart.length; cell++) {
    const from = cellStart[cell], to = cellStart[cell + 1], lower = frames.lowerLeft[cell];
    const flags = (to - from) | (fabric.cellIsRib[cell] ? CELL_RIB : 0) | (lower >= 0 ? CELL_REGULAR : 0);
    for (let k = from; k < to; k++) {
      draft.cellOf[2 * k] = from;
      draft.cellOf[2 * k + 1] = flags;
      for (let i = 0; lower >= 0 && i < 4; i++) {
        draft.quadOf[4 * k + i] = cellVertices[from + ((lower - from + (i < 2 ? i : 5 - i)) & 3)];
      }
    }
  }
}

/** The strip along a boundary counts as a regular cell whose upper loops are out of reach. `edges`: two fabric vertices each. */
export function fillHem(draft: Draft, cornerCount: number, edges: ArrayLike<number>): void {
  for (let hem = 0; 2 * hem < edges.length; hem++) {
    const a = edges[2 * hem], b = edges[2 * hem + 1], first = cornerCount + 2 * hem, k = cornerCount + 4 * hem;
    draft.source.set([a, b, a, b], k);
    draft.hemOther.set([-1, -1, b, a], k);
    draft.rest.set([0, 0, 1, 0, 0, -HEM_ROWS, 1, -HEM_ROWS], 2 * k);
    for (let i = k; i < k + 4; i++) {
      draft.cellOf.set([first, 2 | CELL_HEM | CELL_REGULAR], 2 * i);
      draft.quadOf.set([a, b, a, b], 4 * i);
    }
    draft.corners.set([0, 0, 1, 0, 0, 1, a, 0, 1, 0, 1, 0, 0, 1, b, 0], CORNER_STRIDE * first);
  }
}

/** Builds the drawn cloth: one vertex a cell corner, every cell triangulated, a rolled edge along every boundary, and room for so much edge more. */
export function buildCloth(fabric: Fabric, grid: StitchGrid, moreEdges = 0): ClothGeometry {
  const cornerCount = fabric.cellVertices.length;
  const edges = boundaryEdges(fabric);
  const hemCount = edges.length / 2 + moreEdges, vertexCount = cornerCount + 4 * hemCount;
  const draft: Draft = {
    source: new Int32Array(vertexCount), hemOther: new Int32Array(vertexCount).fill(-1),
    cellOf: new Int32Array(2 * vertexCount), quadOf: new Int32Array(4 * vertexCount), rest: new Float32Array(2 * vertexCount),
    corners: new Float32Array(4 * paddedLength(2 * (cornerCount + 2 * hemCount))),
  };
  fillCells(draft, fabric, stitchFrames(fabric, grid));
  fillHem(draft, cornerCount, edges);
  const looks = loopLooks(fabric, grid);
  return {
    ...draft, vertexCount, looks, ...indexByKind(fabric, draft, looks, hemCount),
  };
}
