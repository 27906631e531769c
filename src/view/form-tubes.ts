import { BufferAttribute, BufferGeometry } from 'three';
import type { FormScene } from '../yarn/form-scene.ts';
import { centreLine } from '../yarn/spline.ts';
import { PIECE_POINTS, type YarnLay } from '../yarn/yarn-lay.ts';

const SIDES = 10, STEPS = 3;

/** Tubes round the yarn of a close-up, made anew at every moment: a few thousand points. */
export class FormTubes {
  readonly geometry = new BufferGeometry();
  private readonly starts: readonly number[];
  /** Piece of each ring. */
  private readonly pieces: readonly number[];
  private readonly positions: BufferAttribute;
  private readonly normals: BufferAttribute;

  /** `inflate`: so much thicker than the yarn, mm, for its outline. */
  constructor(scene: FormScene, private readonly inflate: number) {
    const { lengthStart } = scene.thread, starts: number[] = [], index: number[] = [], pieces: number[] = [];
    for (let k = 0; k + 1 < lengthStart.length; k++) {
      const spans = (lengthStart[k + 1] - lengthStart[k]) * PIECE_POINTS * STEPS, first = pieces.length;
      starts.push(first);
      for (let i = 0; i <= spans; i++) {
        pieces.push(Math.min(lengthStart[k + 1] - 1, lengthStart[k] + Math.floor((i + 1.5 * STEPS) / (PIECE_POINTS * STEPS))));
        if (i < spans) index.push(...wallOf(first + i));
      }
    }
    const rings = pieces.length;
    this.starts = starts;
    this.positions = new BufferAttribute(new Float32Array(3 * SIDES * rings), 3);
    this.normals = new BufferAttribute(new Float32Array(3 * SIDES * rings), 3);
    this.geometry.setIndex(index);
    this.geometry.setAttribute('position', this.positions);
    this.geometry.setAttribute('a_normal', this.normals);
    this.geometry.setAttribute('a_tone', new BufferAttribute(new Float32Array(SIDES * rings), 1));
    this.pieces = pieces;
  }

  show(lay: YarnLay): void {
    const { lengthStart, yarn } = lay.thread;
    for (let k = 0; k + 1 < lengthStart.length; k++) {
      const line = centreLine(lay, lengthStart[k], lengthStart[k + 1], STEPS);
      this.sweep(line, this.starts[k], lay.diameterMm[yarn[lengthStart[k]]] / 2 + this.inflate);
    }
    this.positions.needsUpdate = true;
    this.normals.needsUpdate = true;
  }

  /** Other colours of the pieces. */
  setTones(toneOf: (piece: number) => number): void {
    const tones = this.geometry.getAttribute('a_tone') as BufferAttribute;
    this.pieces.forEach((piece, ring) => { tones.array.fill(toneOf(piece), SIDES * ring, SIDES * (ring + 1)); });
    tones.needsUpdate = true;
  }

  /** A ring at every point of a line, each turned as little as may be against the one before. */
  private sweep(line: Float64Array, first: number, radius: number): void {
    const last = line.length / 3 - 1, positions = this.positions.array, normals = this.normals.array;
    let ux = 0, uy = 0.6, uz = 0.8;
    for (let i = 0; i <= last; i++) {
      const a = 3 * Math.max(0, i - 1), b = 3 * Math.min(last, i + 1);
      let tx = line[b] - line[a], ty = line[b + 1] - line[a + 1], tz = line[b + 2] - line[a + 2];
      const length = Math.sqrt(tx * tx + ty * ty + tz * tz) || 1;
      tx /= length; ty /= length; tz /= length;
      const along = ux * tx + uy * ty + uz * tz;
      ux -= along * tx; uy -= along * ty; uz -= along * tz;
      const size = Math.sqrt(ux * ux + uy * uy + uz * uz);
      if (size < 1e-6) [ux, uy, uz] = Math.abs(tx) < 0.9 ? [0, -tz, ty] : [tz, 0, -tx];
      const unit = Math.sqrt(ux * ux + uy * uy + uz * uz) || 1;
      ux /= unit; uy /= unit; uz /= unit;
      const vx = ty * uz - tz * uy, vy = tz * ux - tx * uz, vz = tx * uy - ty * ux;
      for (let s = 0; s < SIDES; s++) {
        const angle = (2 * Math.PI * s) / SIDES, c = Math.cos(angle), d = Math.sin(angle), at = 3 * (SIDES * (first + i) + s);
        const nx = c * ux + d * vx, ny = c * uy + d * vy, nz = c * uz + d * vz;
        normals[at] = nx; normals[at + 1] = ny; normals[at + 2] = nz;
        positions[at] = line[3 * i] + radius * nx; positions[at + 1] = line[3 * i + 1] + radius * ny; positions[at + 2] = line[3 * i + 2] + radius * nz;
      }
    }
  }
}

/** Triangles from one ring to the next. */
function wallOf(ring: number): number[] {
  return Array.from({ length: SIDES }, (_, s) => {
    const a = SIDES * ring + s, b = SIDES * ring + (s + 1) % SIDES;
    return [a, b, a + SIDES, b, b + SIDES, a + SIDES];
  }).flat();
}
