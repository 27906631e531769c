/** Numbers of Khronos' glTF 2.0 specification, sections 3.6, 3.7 and 4.4. */
const MAGIC = 0x46546c67, VERSION = 2, JSON_CHUNK = 0x4e4f534a, BINARY_CHUNK = 0x004e4942;
export const GLTF = { float: 5126, unsignedShort: 5123, unsignedInt: 5125, arrayBuffer: 34962, elementArrayBuffer: 34963, triangles: 4 } as const;
/** Header of the file, and of each of its two chunks. */
const FILE_HEAD = 12, CHUNK_HEAD = 8;

export const METRES_PER_MM = 0.001;

/** The sock's z, up its leg, becomes glTF's y: a quarter turn about x. Three entries a point. */
export function turnUpright(positions: Float64Array | Float32Array, scale: number): Float32Array<ArrayBuffer> {
  const out = new Float32Array(positions.length);
  for (let i = 0; i < out.length; i += 3) {
    out[i] = scale * positions[i];
    out[i + 1] = scale * positions[i + 2];
    out[i + 2] = -scale * positions[i + 1];
  }
  return out;
}

/** Least and greatest of each coordinate. */
export interface Bounds { readonly min: readonly number[]; readonly max: readonly number[] }

export function boundsOf(places: Float32Array): Bounds {
  const min = [Infinity, Infinity, Infinity], max = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < places.length; i++) {
    const d = i % 3;
    if (places[i] < min[d]) min[d] = places[i];
    if (places[i] > max[d]) max[d] = places[i];
  }
  return { min, max };
}

/** JSON in ASCII alone: any other letter as its escape, which reads the same. */
function asciiOf(json: string): Uint8Array {
  const plain = json.replace(/[^ -~]/g, (unit) => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`);
  return Uint8Array.from(plain, (letter) => letter.charCodeAt(0));
}

/**
 * All of a binary glTF file before its numbers, of which there are `numberBytes`, a multiple of four: the words
 * are filled up to such a multiple with spaces.
 */
export function glbHead(document: object, numberBytes: number): Uint8Array<ArrayBuffer> {
  const words = asciiOf(JSON.stringify(document)), wordBytes = 4 * Math.ceil(words.length / 4), length = FILE_HEAD + 2 * CHUNK_HEAD + wordBytes;
  const out = new Uint8Array(length), view = new DataView(out.buffer);
  [MAGIC, VERSION, length + numberBytes, wordBytes, JSON_CHUNK].forEach((number, i) => { view.setUint32(4 * i, number, true); });
  out.fill(0x20, FILE_HEAD + CHUNK_HEAD, FILE_HEAD + CHUNK_HEAD + wordBytes);
  out.set(words, FILE_HEAD + CHUNK_HEAD);
  view.setUint32(length - CHUNK_HEAD, numberBytes, true);
  view.setUint32(length - 4, BINARY_CHUNK, true);
  return out;
}
