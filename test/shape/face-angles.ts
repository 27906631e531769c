import type { Fabric } from '../../src/fabric/fabric.ts';

type Vector = readonly [number, number, number];

/** Angles between the normals of neighbouring cells, degrees, one for each edge between two. */
export function faceAngles(fabric: Fabric, positions: Float64Array): number[] {
  const normals: Vector[] = [], firstOf = new Map<string, number>(), angles: number[] = [];
  for (let cell = 0; cell + 1 < fabric.cellStart.length; cell++) {
    const corners = fabric.cellVertices.subarray(fabric.cellStart[cell], fabric.cellStart[cell + 1]);
    normals.push(normalOf(corners, positions));
    corners.forEach((v, k) => {
      const next = corners[(k + 1) % corners.length], key = v < next ? `${v} ${next}` : `${next} ${v}`, other = firstOf.get(key);
      if (other === undefined) { firstOf.set(key, cell); return; }
      const [a, b] = [normals[other], normals[cell]];
      angles.push(Math.acos(Math.min(1, Math.max(-1, a[0] * b[0] + a[1] * b[1] + a[2] * b[2]))) * 180 / Math.PI);
    });
  }
  return angles;
}

/** Unit vector along the polygon's vector area. */
function normalOf(corners: Int32Array, p: Float64Array): Vector {
  const sum = [0, 0, 0];
  corners.forEach((v, k) => {
    const i = 3 * v, j = 3 * corners[(k + 1) % corners.length];
    for (let a = 0; a < 3; a++) sum[a] += p[i + (a + 1) % 3] * p[j + (a + 2) % 3] - p[i + (a + 2) % 3] * p[j + (a + 1) % 3];
  });
  const size = Math.hypot(...sum);
  return [sum[0] / size, sum[1] / size, sum[2] / size];
}
