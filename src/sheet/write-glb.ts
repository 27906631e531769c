import type { ClothSurface } from './cloth-surface.ts';

/** Numbers of Khronos' glTF 2.0 specification, sections 3.6, 3.7 and 4.4. */
const MAGIC = 0x46546c67, VERSION = 2, JSON_CHUNK = 0x4e4f534a, BINARY_CHUNK = 0x004e4942;
const FLOAT = 5126, UNSIGNED_INT = 5125, ARRAY_BUFFER = 34962, ELEMENT_ARRAY_BUFFER = 34963, TRIANGLES = 4;
const METRES_PER_MM = 0.001;

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
    const view = { buffer: 0, byteOffset: offset, byteLength, target: i === 3 ? ELEMENT_ARRAY_BUFFER : ARRAY_BUFFER };
    offset += byteLength;
    return view;
  });
  const vectors = (bufferView: number): object => ({ bufferView, componentType: FLOAT, count: points, type: 'VEC3' });
  const document = {
    asset: { version: '2.0', generator: 'Heelwright' },
    scene: 0, scenes: [{ nodes: [0] }], nodes: [{ mesh: 0, name }],
    meshes: [{ name, primitives: [{ attributes: { POSITION: 0, NORMAL: 1, COLOR_0: 2 }, indices: 3, material: 0, mode: TRIANGLES }] }],
    materials: [{ name: 'cloth', doubleSided: true, pbrMetallicRoughness: { baseColorFactor: [1, 1, 1, 1], metallicFactor: 0, roughnessFactor: 1 } }],
    accessors: [{ ...vectors(0), ...rangeOf(places) }, vectors(1), vectors(2), { bufferView: 3, componentType: UNSIGNED_INT, count: triangles.length, type: 'SCALAR' }],
    bufferViews, buffers: [{ byteLength: offset }],
  };
  return joinChunks(asciiOf(JSON.stringify(document)), parts, offset);
}

/** The sock's z, up its leg, becomes glTF's y: a quarter turn about x. */
function turnUpright(positions: Float64Array, scale: number): Float32Array {
  const out = new Float32Array(positions.length);
  for (let i = 0; i < out.length; i += 3) {
    out[i] = scale * positions[i];
    out[i + 1] = scale * positions[i + 2];
    out[i + 2] = -scale * positions[i + 1];
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

function rangeOf(places: Float32Array): { readonly min: readonly number[]; readonly max: readonly number[] } {
  const min = [Infinity, Infinity, Infinity], max = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < places.length; i++) {
    min[i % 3] = Math.min(min[i % 3], places[i]);
    max[i % 3] = Math.max(max[i % 3], places[i]);
  }
  return { min, max };
}

/** JSON in ASCII alone: any other letter as its escape, which reads the same. */
function asciiOf(json: string): Uint8Array {
  const plain = json.replace(/[^ -~]/g, (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`);
  return Uint8Array.from(plain, (letter) => letter.charCodeAt(0));
}

/** Header and two chunks, each filled up to a multiple of four bytes: words with spaces, numbers with zeros. */
function joinChunks(words: Uint8Array, parts: readonly Uint8Array[], partBytes: number): Uint8Array<ArrayBuffer> {
  const wordBytes = 4 * Math.ceil(words.length / 4), numberBytes = 4 * Math.ceil(partBytes / 4), total = 12 + 8 + wordBytes + 8 + numberBytes;
  const out = new Uint8Array(total), view = new DataView(out.buffer);
  [MAGIC, VERSION, total, wordBytes, JSON_CHUNK].forEach((number, i) => { view.setUint32(4 * i, number, true); });
  out.fill(0x20, 20, 20 + wordBytes);
  out.set(words, 20);
  view.setUint32(20 + wordBytes, numberBytes, true);
  view.setUint32(24 + wordBytes, BINARY_CHUNK, true);
  let at = 28 + wordBytes;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}
