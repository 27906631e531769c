import type { Fabric } from '../fabric/fabric.ts';

/**
 * A posed fabric, or part of one, as triangles. Points come first the cells' corners, then one
 * centre for each cell of more than three corners. Half-edge `3 t + k` runs from corner k of
 * triangle t to corner k + 1; triangles are counter-clockwise seen from outside.
 */
export interface Surface {
  readonly pointCount: number;
  /** Three entries a point, mm. */
  readonly positions: Float64Array;
  readonly triangleCount: number;
  /** Three points a triangle. */
  readonly triangles: Int32Array;
  /** Half-edge on the other side of each half-edge, -1 at a boundary. */
  readonly twins: Int32Array;
  /** Number of each half-edge's edge; both sides have the same. */
  readonly edgeOf: Int32Array;
  readonly edgeCount: number;
  /** Triangles at point p: fans[fanStart[p] .. fanStart[p + 1]). */
  readonly fanStart: Int32Array;
  readonly fans: Int32Array;
  /** Vertex of the fabric that a point stands for; -1 for a cell's centre. */
  readonly pointVertex: Int32Array;
  /** Cell of the fabric that a triangle is part of. */
  readonly triangleCell: Int32Array;
}

/** Joins loose triangles (three points each, every inner edge walked once each way) to a surface. */
export function connectTriangles(
  positions: Float64Array,
  triangles: Int32Array,
  pointVertex: Int32Array = Int32Array.from({ length: positions.length / 3 }, (_, i) => i),
  triangleCell: Int32Array = Int32Array.from({ length: triangles.length / 3 }, (_, i) => i),
): Surface {
  const pointCount = positions.length / 3;
  const { twins, edgeOf, edgeCount } = pairHalfEdges(pointCount, triangles);
  const fanStart = new Int32Array(pointCount + 1);
  for (const p of triangles) fanStart[p + 1]++;
  for (let p = 0; p < pointCount; p++) fanStart[p + 1] += fanStart[p];
  const fans = new Int32Array(triangles.length);
  const filled = fanStart.slice(0, pointCount);
  for (let h = 0; h < triangles.length; h++) fans[filled[triangles[h]]++] = (h / 3) | 0;
  return {
    pointCount, positions, triangleCount: triangles.length / 3, triangles,
    twins, edgeOf, edgeCount, fanStart, fans, pointVertex, triangleCell,
  };
}

/**
 * The triangles of some cells (all without `cells`) of a fabric in a pose. A cell of three corners
 * is one triangle; any other gets its corners' mean as a centre and one triangle a side, so that
 * a bent cell and its mirror image are split alike.
 */
export function buildSurface(fabric: Fabric, positions: Float64Array, cells: Int32Array | null = null): Surface {
  const { cellStart, cellVertices } = fabric;
  const chosen = cells ?? Int32Array.from({ length: cellStart.length - 1 }, (_, c) => c);
  const vertexPoint = new Int32Array(fabric.vertexCount).fill(-1);
  let cornerCount = 0;
  let centreCount = 0;
  let triangleCount = 0;
  for (const cell of chosen) {
    const sides = cellStart[cell + 1] - cellStart[cell];
    triangleCount += sides === 3 ? 1 : sides;
    if (sides !== 3) centreCount++;
    for (let i = cellStart[cell]; i < cellStart[cell + 1]; i++) {
      if (vertexPoint[cellVertices[i]] === -1) vertexPoint[cellVertices[i]] = cornerCount++;
    }
  }
  const points = new Float64Array(3 * (cornerCount + centreCount));
  const pointVertex = new Int32Array(cornerCount + centreCount).fill(-1);
  vertexPoint.forEach((point, vertex) => {
    if (point === -1) return;
    pointVertex[point] = vertex;
    for (let d = 0; d < 3; d++) points[3 * point + d] = positions[3 * vertex + d];
  });
  const triangles = new Int32Array(3 * triangleCount);
  const triangleCell = new Int32Array(triangleCount);
  let centre = cornerCount;
  let t = 0;
  for (const cell of chosen) {
    const start = cellStart[cell];
    const sides = cellStart[cell + 1] - start;
    const isFan = sides !== 3;
    for (let k = 0; k < (isFan ? sides : 1); k++, t++) {
      const p = vertexPoint[cellVertices[start + k]];
      triangles[3 * t] = p;
      triangles[3 * t + 1] = vertexPoint[cellVertices[start + ((k + 1) % sides)]];
      triangles[3 * t + 2] = isFan ? centre : vertexPoint[cellVertices[start + 2]];
      triangleCell[t] = cell;
      if (!isFan) continue;
      points[3 * centre] += points[3 * p] / sides;
      points[3 * centre + 1] += points[3 * p + 1] / sides;
      points[3 * centre + 2] += points[3 * p + 2] / sides;
    }
    if (isFan) centre++;
  }
  return connectTriangles(points, triangles, pointVertex, triangleCell);
}

/** A number a vertex of the fabric, spread to the surface's points; a cell's centre gets its corners' mean. */
export function spreadField(surface: Surface, vertexField: ArrayLike<number>): Float64Array {
  const field = new Float64Array(surface.pointCount);
  const corners = new Int32Array(surface.pointCount);
  for (let p = 0; p < surface.pointCount; p++) {
    const vertex = surface.pointVertex[p];
    if (vertex >= 0) field[p] = vertexField[vertex];
  }
  for (let t = 0; t < surface.triangleCount; t++) {
    const centre = surface.triangles[3 * t + 2];
    if (surface.pointVertex[centre] !== -1) continue;
    field[centre] += field[surface.triangles[3 * t]];
    corners[centre]++;
  }
  for (let p = 0; p < surface.pointCount; p++) if (corners[p] > 0) field[p] /= corners[p];
  return field;
}

/** Finds each half-edge's other side by chaining half-edges at their lower-numbered point. */
function pairHalfEdges(pointCount: number, triangles: Int32Array): Pick<Surface, 'twins' | 'edgeOf' | 'edgeCount'> {
  const count = triangles.length;
  const twins = new Int32Array(count).fill(-1);
  const edgeOf = new Int32Array(count);
  const head = new Int32Array(pointCount).fill(-1);
  const next = new Int32Array(count).fill(-1);
  let edgeCount = 0;
  for (let h = 0; h < count; h++) {
    const from = triangles[h];
    const to = triangles[h % 3 === 2 ? h - 2 : h + 1];
    const low = from < to ? from : to;
    let other = head[low];
    while (other !== -1) {
      const otherTo = triangles[other % 3 === 2 ? other - 2 : other + 1];
      if (twins[other] === -1 && triangles[other] === to && otherTo === from) break;
      other = next[other];
    }
    if (other === -1) {
      edgeOf[h] = edgeCount++;
      next[h] = head[low];
      head[low] = h;
    } else {
      twins[h] = other;
      twins[other] = h;
      edgeOf[h] = edgeOf[other];
    }
  }
  return { twins, edgeOf, edgeCount };
}
