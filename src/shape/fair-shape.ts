import type { Fabric } from '../fabric/fabric.ts';

/**
 * Smooths a shape in place without shrinking it: passes that move each vertex towards the mean of
 * its neighbours and back a little farther (Taubin, A signal processing approach to fair surface
 * design, SIGGRAPH 1995, 351-358; his factors 0.33 and -0.34). Jitter from vertex to vertex goes,
 * the shape stays. Coordinates along `fixedAxis` are left alone.
 */
export function fairShape(fabric: Fabric, positions: Float64Array, passes: number, fixedAxis = -1): void {
  const sums = new Float64Array(positions.length);
  const counts = new Float64Array(fabric.vertexCount);
  for (const vertex of fabric.edges) counts[vertex]++;
  for (let pass = 0; pass < passes; pass++) {
    moveToMeans(fabric, positions, sums, counts, 0.33, fixedAxis);
    moveToMeans(fabric, positions, sums, counts, -0.34, fixedAxis);
  }
}

function moveToMeans(fabric: Fabric, positions: Float64Array, sums: Float64Array, counts: Float64Array, share: number, fixedAxis: number): void {
  const { edges } = fabric;
  sums.fill(0);
  for (let e = 0; e < edges.length; e += 2) {
    const a = 3 * edges[e], b = 3 * edges[e + 1];
    for (let axis = 0; axis < 3; axis++) {
      sums[a + axis] += positions[b + axis];
      sums[b + axis] += positions[a + axis];
    }
  }
  for (let i = 0; i < positions.length; i++) {
    const count = counts[Math.floor(i / 3)];
    if (count > 0 && i % 3 !== fixedAxis) positions[i] += share * (sums[i] / count - positions[i]);
  }
}
