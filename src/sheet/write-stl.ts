import type { ClothSurface } from './cloth-surface.ts';

const HEADER_BYTES = 80, TRIANGLE_BYTES = 50;

/**
 * A surface as binary STL, mm: 80 bytes of words, the count of triangles, then a normal, three
 * corners and two spare bytes each, all little-endian (3D Systems, StereoLithography Interface
 * Specification, 1989). One layer of cloth, open at the cuff; corners counter-clockwise from outside.
 */
export function writeStl({ positions, triangles }: ClothSurface, header: string): Uint8Array<ArrayBuffer> {
  const count = triangles.length / 3, bytes = new Uint8Array(HEADER_BYTES + 4 + TRIANGLE_BYTES * count), view = new DataView(bytes.buffer);
  // Readers take a file that begins with `solid` for the written form.
  const words = `mm ${header}`.replace(/[^ -~]/g, '?').slice(0, HEADER_BYTES);
  for (let i = 0; i < HEADER_BYTES; i++) bytes[i] = i < words.length ? words.charCodeAt(i) : 0x20;
  view.setUint32(HEADER_BYTES, count, true);
  for (let triangle = 0; triangle < count; triangle++) {
    const [a, b, c] = [0, 1, 2].map((corner) => 3 * triangles[3 * triangle + corner]);
    const numbers = [...normalOf(positions, a, b, c), ...[a, b, c].flatMap((p) => [positions[p], positions[p + 1], positions[p + 2]])];
    const at = HEADER_BYTES + 4 + TRIANGLE_BYTES * triangle;
    numbers.forEach((number, i) => { view.setFloat32(at + 4 * i, number, true); });
  }
  return bytes;
}

/** Of unit length; of a triangle without area zero, as the format asks. */
function normalOf(p: Float64Array, a: number, b: number, c: number): readonly number[] {
  const ux = p[b] - p[a], uy = p[b + 1] - p[a + 1], uz = p[b + 2] - p[a + 2];
  const vx = p[c] - p[a], vy = p[c + 1] - p[a + 1], vz = p[c + 2] - p[a + 2];
  const x = uy * vz - uz * vy, y = uz * vx - ux * vz, z = ux * vy - uy * vx, length = Math.sqrt(x * x + y * y + z * z);
  return length > 0 ? [x / length, y / length, z / length] : [0, 0, 0];
}
