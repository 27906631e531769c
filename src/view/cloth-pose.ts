import type { Fabric } from '../fabric/fabric.ts';
import { SECTION } from '../machine/codes.ts';
import { boundaryEdges, type ClothGeometry, HEM_ROWS } from './cloth-geometry.ts';

/** One round of averaging a vertex value with its neighbours' mean, half and half. */
function smoothOnce(values: Float64Array, fabric: Fabric): Float64Array {
  const sum = new Float64Array(values.length), count = new Uint16Array(values.length);
  for (let e = 0; e < fabric.edges.length; e += 2) {
    const a = fabric.edges[e], b = fabric.edges[e + 1];
    sum[a] += values[b]; sum[b] += values[a];
    count[a]++; count[b]++;
  }
  return values.map((v, i) => (count[i] > 0 ? 0.5 * v + (0.5 * sum[i]) / count[i] : v));
}

/**
 * How hollow the cloth is at each vertex as seen from outside: mean sine of the rise of its
 * edges over the tangent plane, smoothed over a few stitches. Positive in a crease.
 */
export function hollowness(fabric: Fabric, positions: Float64Array, normals: Float64Array): Float64Array {
  let rise: Float64Array = new Float64Array(fabric.vertexCount);
  const count = new Uint16Array(fabric.vertexCount);
  for (let e = 0; e < fabric.edges.length; e += 2) {
    const a = fabric.edges[e], b = fabric.edges[e + 1];
    const dx = positions[3 * b] - positions[3 * a], dy = positions[3 * b + 1] - positions[3 * a + 1], dz = positions[3 * b + 2] - positions[3 * a + 2];
    const length = Math.sqrt(dx * dx + dy * dy + dz * dz) || 1;
    rise[a] += (dx * normals[3 * a] + dy * normals[3 * a + 1] + dz * normals[3 * a + 2]) / length;
    rise[b] -= (dx * normals[3 * b] + dy * normals[3 * b + 1] + dz * normals[3 * b + 2]) / length;
    count[a]++; count[b]++;
  }
  rise = rise.map((v, i) => v / Math.max(1, count[i]));
  for (let round = 0; round < 3; round++) rise = smoothOnce(rise, fabric);
  return rise;
}

/** Outward step of a boundary edge's strip: along tangent x normal, `HEM_ROWS` rows long. */
function hemStep(out: Float64Array, p: Float64Array, n: Float64Array, a: number, b: number, sign: number, length: number): void {
  const tx = sign * (p[3 * b] - p[3 * a]), ty = sign * (p[3 * b + 1] - p[3 * a + 1]), tz = sign * (p[3 * b + 2] - p[3 * a + 2]);
  const nx = n[3 * a], ny = n[3 * a + 1], nz = n[3 * a + 2];
  const x = ty * nz - tz * ny, y = tz * nx - tx * nz, z = tx * ny - ty * nx;
  const scale = length / (Math.sqrt(x * x + y * y + z * z) || 1);
  out[0] = x * scale; out[1] = y * scale; out[2] = z * scale;
}

/** Both boundary edges at a vertex move it the same way, so that the strip does not tear: mean of the two steps. */
function hemSteps(fabric: Fabric, edges: ArrayLike<number>, p: Float64Array, n: Float64Array): Map<number, Float64Array> {
  const steps = new Map<number, Float64Array>();
  const step = new Float64Array(3), length = HEM_ROWS * fabric.waleMm;
  const add = (v: number, other: number, sign: number): void => {
    hemStep(step, p, n, v, other, sign, length / 2);
    const sum = steps.get(v) ?? new Float64Array(3);
    for (let i = 0; i < 3; i++) sum[i] += step[i];
    steps.set(v, sum);
  };
  for (let e = 0; e < edges.length; e += 2) {
    add(edges[e], edges[e + 1], 1);
    add(edges[e + 1], edges[e], -1);
  }
  return steps;
}

/** Buffers of a posed cloth: three, three and two entries a drawn vertex; the third holds hollowness and millimetres from the cuff, below 0 for a flat piece, which has no inside. */
export interface PosedCloth { readonly positions: Float32Array; readonly normals: Float32Array; readonly hollow: Float32Array }

/** A flat piece still on the machine: one boundary runs round all of it, not along the cast-on only. */
function hasSides({ boundaryStart, boundaryVertices, vertexSection }: Fabric): boolean {
  return boundaryStart.length === 2 && boundaryVertices.some((v) => vertexSection[v] !== SECTION['cast-on']);
}

/** What of a cloth is posed: its first `drawn` vertices and those of its hem from `hem` on, a strip along `edges`, two fabric vertices each. */
export interface PosedPart {
  readonly fabric: Fabric;
  readonly drawn: number;
  readonly hem: number;
  readonly edges: ArrayLike<number>;
  /** A flat piece has no inside. */
  readonly isSheet: boolean;
}

/** Fills the drawn vertices' positions, normals and hollowness from the fabric's positions and normals (three entries a vertex, mm). */
export function poseClothInto(out: PosedCloth, cloth: ClothGeometry, fabric: Fabric, positions: Float64Array, normals: Float64Array): void {
  const edges = boundaryEdges(fabric), hem = fabric.cellVertices.length;
  posePartInto(out, cloth, { fabric, drawn: hem, hem, edges, isSheet: hasSides(fabric) }, positions, normals);
}

/** The same for part of a cloth. */
export function posePartInto(out: PosedCloth, cloth: ClothGeometry, { fabric, drawn, hem, edges, isSheet }: PosedPart, positions: Float64Array, normals: Float64Array): void {
  const hollow = hollowness(fabric, positions, normals), steps = hemSteps(fabric, edges, positions, normals);
  poseRange(0, drawn);
  poseRange(hem, hem + 2 * edges.length);

  function poseRange(from: number, to: number): void {
    for (let i = from; i < to; i++) {
      const v = cloth.source[i], step = cloth.hemOther[i] >= 0 ? steps.get(v) : undefined;
      for (let d = 0; d < 3; d++) {
        out.positions[3 * i + d] = positions[3 * v + d] + (step ? step[d] : 0);
        out.normals[3 * i + d] = normals[3 * v + d];
      }
      out.hollow[2 * i] = hollow[v];
      out.hollow[2 * i + 1] = isSheet ? -1 : fabric.vertexRow[v] * fabric.waleMm;
    }
  }
}
