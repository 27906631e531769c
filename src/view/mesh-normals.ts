/** Unit normals of a mesh's points, weighted by the areas of its triangles; three entries a point, three points a triangle. */
export function meshNormals(positions: Float32Array, triangles: Uint32Array): Float32Array {
  const normals = new Float32Array(positions.length), p = positions;
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t], 3 * triangles[t + 1], 3 * triangles[t + 2]];
    const ux = p[b] - p[a], uy = p[b + 1] - p[a + 1], uz = p[b + 2] - p[a + 2], vx = p[c] - p[a], vy = p[c + 1] - p[a + 1], vz = p[c + 2] - p[a + 2];
    const x = uy * vz - uz * vy, y = uz * vx - ux * vz, z = ux * vy - uy * vx;
    for (const at of [a, b, c]) { normals[at] += x; normals[at + 1] += y; normals[at + 2] += z; }
  }
  for (let i = 0; i < normals.length; i += 3) {
    const length = Math.sqrt(normals[i] ** 2 + normals[i + 1] ** 2 + normals[i + 2] ** 2) || 1;
    for (let d = 0; d < 3; d++) normals[i + d] /= length;
  }
  return normals;
}
