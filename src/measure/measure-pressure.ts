import type { Fabric } from '../fabric/fabric.ts';

/** Pa in a millimetre of mercury. */
export const PA_PER_MMHG = 133.322;
const PA_PER_N_MM2 = 1e6;

/** Rounds of spreading over neighbours: one takes in a stitch to each side, which levels the mesh's own unevenness. */
const SPREAD_ROUNDS = 2;

/**
 * Pressure that a cloth puts on what it lies on, by Laplace's law p = T1 k1 + T2 k2: the cloth's tension
 * times its curvature along courses and wales. Both are in the force that a vertex feels from the cloth
 * around it: its inward part over the area that the vertex stands for is the pressure. Forces and areas
 * are spread over a stitch or two before they are divided. Where the cloth stands off (`gapsMm` above
 * 0) nothing is pressed and the pressure is 0.
 * @param positions three entries a vertex, mm
 * @param forces of the cloth on each vertex, three entries, N
 * @returns mmHg, one entry a vertex
 */
export function measurePressure(fabric: Fabric, positions: Float64Array, forces: Float64Array, gapsMm: Float64Array | null = null): Float64Array {
  const { normals, areas } = vertexAreas(fabric, positions), inward = new Float64Array(fabric.vertexCount);
  for (let v = 0; v < fabric.vertexCount; v++) {
    inward[v] = -(forces[3 * v] * normals[3 * v] + forces[3 * v + 1] * normals[3 * v + 1] + forces[3 * v + 2] * normals[3 * v + 2]);
  }
  let pushed: Float64Array = inward, spread: Float64Array = areas;
  for (let round = 0; round < SPREAD_ROUNDS; round++) {
    pushed = addNeighbours(fabric, pushed);
    spread = addNeighbours(fabric, spread);
  }
  return Float64Array.from({ length: fabric.vertexCount }, (_, v) => {
    if (!(spread[v] > 0) || gapsMm !== null && gapsMm[v] > 0) return 0;
    return Math.max(0, pushed[v] / spread[v]) * PA_PER_N_MM2 / PA_PER_MMHG;
  });
}

/** Pressure of a band round a cylinder, mmHg: tension (N/mm) over radius, the radius from the girth (mm). */
export function bandPressure(tension: number, girthMm: number): number {
  return tension * 2 * Math.PI / girthMm * PA_PER_N_MM2 / PA_PER_MMHG;
}

/** Each value together with half of each neighbour's along the edges: both sides of a quotient are weighed alike. */
function addNeighbours({ edges }: Fabric, values: Float64Array): Float64Array {
  const sums = values.slice();
  for (let e = 0; e < edges.length; e += 2) {
    sums[edges[e]] += 0.5 * values[edges[e + 1]];
    sums[edges[e + 1]] += 0.5 * values[edges[e]];
  }
  return sums;
}

/** Outward unit normal of each vertex, and its share of the cells around it as they lie, mm^2. */
export function vertexAreas({ vertexCount, cellStart, cellVertices }: Fabric, p: Float64Array): { readonly normals: Float64Array; readonly areas: Float64Array } {
  const normals = new Float64Array(3 * vertexCount), areas = new Float64Array(vertexCount), cell = new Float64Array(3);
  for (let c = 0; c + 1 < cellStart.length; c++) {
    const from = cellStart[c], to = cellStart[c + 1];
    cell.fill(0);
    for (let k = from, before = to - 1; k < to; before = k, k++) {
      const i = 3 * cellVertices[before], j = 3 * cellVertices[k];
      cell[0] += 0.5 * (p[i + 1] * p[j + 2] - p[i + 2] * p[j + 1]);
      cell[1] += 0.5 * (p[i + 2] * p[j] - p[i] * p[j + 2]);
      cell[2] += 0.5 * (p[i] * p[j + 1] - p[i + 1] * p[j]);
    }
    const share = Math.sqrt(cell[0] * cell[0] + cell[1] * cell[1] + cell[2] * cell[2]) / (to - from);
    for (let k = from; k < to; k++) {
      const v = cellVertices[k];
      areas[v] += share;
      for (let d = 0; d < 3; d++) normals[3 * v + d] += cell[d];
    }
  }
  for (let v = 0; v < vertexCount; v++) {
    const i = 3 * v, size = Math.sqrt(normals[i] * normals[i] + normals[i + 1] * normals[i + 1] + normals[i + 2] * normals[i + 2]);
    for (let d = 0; d < 3; d++) normals[i + d] = size > 0 ? normals[i + d] / size : 0;
  }
  return { normals, areas };
}
