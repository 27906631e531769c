import type { Fabric } from '../fabric/fabric.ts';

/** Adds each cell's area vector (Newell's formula: half the sum of p_i x p_i+1) to its corners. */
function addAreaVectors(sum: Float64Array, fabric: Fabric, p: Float64Array): void {
  const { cellStart, cellVertices } = fabric;
  for (let cell = 0; cell + 1 < cellStart.length; cell++) {
    const from = cellStart[cell], to = cellStart[cell + 1];
    let nx = 0, ny = 0, nz = 0;
    for (let k = from; k < to; k++) {
      const a = 3 * cellVertices[k], b = 3 * cellVertices[k + 1 < to ? k + 1 : from];
      nx += p[a + 1] * p[b + 2] - p[a + 2] * p[b + 1];
      ny += p[a + 2] * p[b] - p[a] * p[b + 2];
      nz += p[a] * p[b + 1] - p[a + 1] * p[b];
    }
    for (let k = from; k < to; k++) {
      const a = 3 * cellVertices[k];
      sum[a] += nx; sum[a + 1] += ny; sum[a + 2] += nz;
    }
  }
}

/** Outward unit normal of every fabric vertex, area weighted over its cells; three entries a vertex. */
export function vertexNormals(fabric: Fabric, positions: Float64Array): Float64Array {
  const normals = new Float64Array(3 * fabric.vertexCount);
  addAreaVectors(normals, fabric, positions);
  for (let i = 0; i < normals.length; i += 3) {
    const x = normals[i], y = normals[i + 1], z = normals[i + 2];
    const length = Math.sqrt(x * x + y * y + z * z) || 1;
    normals[i] = x / length; normals[i + 1] = y / length; normals[i + 2] = z / length;
  }
  return normals;
}
