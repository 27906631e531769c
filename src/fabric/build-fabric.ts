import type { StitchGrid } from '../machine/grid.ts';
import { mapDarts, type DartMap } from './dart-map.ts';
import type { Fabric } from './fabric.ts';
import { markSock } from './mark-sock.ts';
import { cutRestCells, type StitchSize } from './rest-cells.ts';
import { findTubeBeds, placeVertices } from './sock-coordinates.ts';
import { walkCells, type Walks } from './walk-cells.ts';

/** values[index[i]] for every i. */
function pick<T extends Int32Array | Uint8Array>(values: T, index: Int32Array, into: T): T {
  for (let i = 0; i < index.length; i++) into[i] = values[index[i]];
  return into;
}

const leaving = (map: DartMap, walks: Walks): Int32Array => pick(map.edges, walks.darts, new Int32Array(walks.darts.length));

/** A boundary is walked as the face that it is not, the hole on the left: turned round, the fabric is. */
function turnRound(start: Int32Array, vertices: Int32Array): Int32Array {
  for (let w = 0; w + 1 < start.length; w++) vertices.subarray(start[w], start[w + 1]).reverse();
  return vertices;
}

/** Rest sizes from a gauge: width of a stitch, height of a row, width of a rib stitch, mm. */
export function stitchSizeOf(gauge: { stitchesPerMm: number; rowsPerMm: number; ribWidthFactor: number }): StitchSize {
  return {
    courseMm: 1 / gauge.stitchesPerMm,
    waleMm: 1 / gauge.rowsPerMm,
    ribCourseMm: gauge.ribWidthFactor / gauge.stitchesPerMm,
  };
}

/** The cloth of a stitch grid at a gauge: cells with their rest shapes, boundaries, and a sock's marks if it is one. */
export function buildFabric(grid: StitchGrid, size: StitchSize): Fabric {
  const map = mapDarts(grid);
  const { cells, boundaries } = walkCells(map);
  const tube = findTubeBeds(grid, map);
  const coordinates = placeVertices(grid, map, tube);
  return {
    vertexCount: map.vertexCount,
    vertexLoop: map.vertexLoop,
    loopVertex: map.loopVertex,
    vertexSection: pick(grid.section, map.vertexLoop, new Uint8Array(map.vertexCount)),
    vertexPass: pick(grid.pass, map.vertexLoop, new Int32Array(map.vertexCount)),
    ...coordinates,
    edges: map.edges,
    edgeKind: map.edgeKind,
    cellStart: cells.start,
    cellVertices: leaving(map, cells),
    ...cutRestCells(grid, map, cells, size),
    boundaryStart: boundaries.start,
    boundaryVertices: turnRound(boundaries.start, leaving(map, boundaries)),
    marks: tube && grid.live.length === 0 ? markSock(grid, map, coordinates, tube) : null,
    ...size,
  };
}
