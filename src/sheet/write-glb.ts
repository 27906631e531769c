import type { ClothSurface } from './cloth-surface.ts';
import { boundsOf, glbHead, GLTF, METRES_PER_MM, turnUpright } from './glb-file.ts';

export interface ColouredSurface extends ClothSurface {
  /** Linear red, green, blue of each point, 0 to 1. */
  readonly colours: Float32Array;
}

/**
 * A surface as one binary glTF 2.0 file: metres, y up, x from heel to toe, colours at the points.
 * Cloth has two sides and shows both.
 */
export function writeGlb(surface: ColouredSurface, name: string): Uint8Array<ArrayBuffer> {
  const { colours, triangles } = surface;
  const places = turnUpright(surface.positions, METRES_PER_MM), normals = pointNormals(places, triangles), points = places.length / 3;
  const parts = [places, normals, colours, triangles].map((array) => new Uint8Array(array.buffer, array.byteOffset, array.byteLength));
  let offset = 0;
  const bufferViews = parts.map(({ byteLength }, i) => {
    const view = { buffer: 0, byteOffset: offset, byteLength, target: i === 3 ? GLTF.elementArrayBuffer : GLTF.arrayBuffer };
    offset += byteLength;
    return view;
  });
  const vectors = (bufferView: number): object => ({ bufferView, componentType: GLTF.float, count: points, type: 'VEC3' });
  const document = {
    asset: { version: '2.0', generator: 'Heelwright' },
    scene: 0, scenes: [{ nodes: [0] }], nodes: [{ mesh: 0, name }],
    meshes: [{ name, primitives: [{ attributes: { POSITION: 0, NORMAL: 1, COLOR_0: 2 }, indices: 3, material: 0, mode: GLTF.triangles }] }],
    materials: [{ name: 'cloth', doubleSided: true, pbrMetallicRoughness: { baseColorFactor: [1, 1, 1, 1], metallicFactor: 0, roughnessFactor: 1 } }],
    accessors: [{ ...vectors(0), ...boundsOf(places) }, vectors(1), vectors(2), { bufferView: 3, componentType: GLTF.unsignedInt, count: triangles.length, type: 'SCALAR' }],
    bufferViews, buffers: [{ byteLength: offset }],
  };
  const head = glbHead(document, offset), out = new Uint8Array(head.length + offset);
  let at = 0;
  for (const part of [head, ...parts]) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}

/** Of unit length, each triangle weighing as much as its area. */
function pointNormals(p: Float32Array, triangles: Uint32Array): Float32Array {
  const sum = new Float64Array(p.length);
  for (let t = 0; t < triangles.length; t += 3) {
    const a = 3 * triangles[t], b = 3 * triangles[t + 1], c = 3 * triangles[t + 2];
    const ux = p[b] - p[a], uy = p[b + 1] - p[a + 1], uz = p[b + 2] - p[a + 2];
    const vx = p[c] - p[a], vy = p[c + 1] - p[a + 1], vz = p[c + 2] - p[a + 2];
    const x = uy * vz - uz * vy, y = uz * vx - ux * vz, z = ux * vy - uy * vx;
    for (const v of [a, b, c]) {
      sum[v] += x;
      sum[v + 1] += y;
      sum[v + 2] += z;
    }
  }
  for (let i = 0; i < sum.length; i += 3) {
    const length = Math.sqrt(sum[i] ** 2 + sum[i + 1] ** 2 + sum[i + 2] ** 2);
    // A point of no area still needs a normal of unit length.
    if (length > 0) for (let d = 0; d < 3; d++) sum[i + d] /= length;
    else sum[i + 1] = 1;
  }
  return Float32Array.from(sum);
}
