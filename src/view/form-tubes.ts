import { BufferAttribute, BufferGeometry, GLSL3, RawShaderMaterial, Vector3 } from 'three';
import light from '../../shaders/_light.glsl?raw';
import plies from '../../shaders/_plies.glsl?raw';
import fragment from '../../shaders/form.frag.glsl?raw';
import vertex from '../../shaders/form.vert.glsl?raw';
import type { FormScene } from '../yarn/form-scene.ts';
import { centreLine } from '../yarn/spline.ts';
import { PIECE_POINTS, type YarnLay } from '../yarn/yarn-lay.ts';
import { shaderText } from './shader-text.ts';

const SIDES = 12, STEPS = 3;

/** Yarn in so many colours; painted as other plain surfaces are (matte-mesh.ts). */
export function createFormYarn(tones: number): RawShaderMaterial {
  const vector = (): { value: Vector3 } => ({ value: new Vector3() });
  return new RawShaderMaterial({
    glslVersion: GLSL3, vertexShader: shaderText(vertex), fragmentShader: shaderText(light, plies, fragment), defines: { TONES: tones },
    uniforms: { u_tones: { value: Array.from({ length: tones }, () => new Vector3()) }, u_paper: vector(), u_key: vector(), u_sky: vector(), u_ground: vector(), u_rim: vector() },
  });
}

/** Tubes round the yarn of a close-up, made anew at every moment: a few thousand points. */
export class FormTubes {
  readonly geometry = new BufferGeometry();
  private readonly starts: readonly number[];
  /** Piece of each ring. */
  private readonly pieces: readonly number[];
  private readonly positions: BufferAttribute;
  private readonly normals: BufferAttribute;
  private readonly tangents: BufferAttribute;
  private readonly skin: BufferAttribute;

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
    this.tangents = new BufferAttribute(new Float32Array(3 * SIDES * rings), 3);
    this.skin = new BufferAttribute(new Float32Array(4 * SIDES * rings), 4);
    this.geometry.setAttribute('a_tangent', this.tangents);
    this.geometry.setAttribute('a_skin', this.skin);
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
    for (const attribute of [this.positions, this.normals, this.tangents, this.skin]) attribute.needsUpdate = true;
  }

  /** Other colours of the pieces. */
  setTones(toneOf: (piece: number) => number): void {
    const tones = this.geometry.getAttribute('a_tone') as BufferAttribute;
    this.pieces.forEach((piece, ring) => { tones.array.fill(toneOf(piece), SIDES * ring, SIDES * (ring + 1)); });
    tones.needsUpdate = true;
  }

  /** A ring at every point of a line, each turned as little as may be against the one before. */
  private sweep(line: Float64Array, first: number, radius: number): void {
    const last = line.length / 3 - 1, positions = this.positions.array, normals = this.normals.array, tangents = this.tangents.array, skin = this.skin.array;
    let along = 0, ux = 0, uy = 0.6, uz = 0.8;
    for (let i = 0; i <= last; i++) {
      const a = 3 * Math.max(0, i - 1), b = 3 * Math.min(last, i + 1);
      let tx = line[b] - line[a], ty = line[b + 1] - line[a + 1], tz = line[b + 2] - line[a + 2];
      const length = Math.sqrt(tx * tx + ty * ty + tz * tz) || 1;
      tx /= length; ty /= length; tz /= length;
      if (i > 0) along += Math.sqrt((line[3 * i] - line[3 * i - 3]) ** 2 + (line[3 * i + 1] - line[3 * i - 2]) ** 2 + (line[3 * i + 2] - line[3 * i - 1]) ** 2);
      const lean = ux * tx + uy * ty + uz * tz;
      ux -= lean * tx; uy -= lean * ty; uz -= lean * tz;
      const size = Math.sqrt(ux * ux + uy * uy + uz * uz);
      if (size < 1e-6) [ux, uy, uz] = Math.abs(tx) < 0.9 ? [0, -tz, ty] : [tz, 0, -tx];
      const unit = Math.sqrt(ux * ux + uy * uy + uz * uz) || 1;
      ux /= unit; uy /= unit; uz /= unit;
      const vx = ty * uz - tz * uy, vy = tz * ux - tx * uz, vz = tx * uy - ty * ux;
      for (let s = 0; s < SIDES; s++) {
        const angle = (2 * Math.PI * s) / SIDES, c = Math.cos(angle), d = Math.sin(angle), at = 3 * (SIDES * (first + i) + s);
        const nx = c * ux + d * vx, ny = c * uy + d * vy, nz = c * uz + d * vz;
        tangents[at] = tx; tangents[at + 1] = ty; tangents[at + 2] = tz;
        const own = 4 * (SIDES * (first + i) + s);
        skin[own] = c; skin[own + 1] = d; skin[own + 2] = along; skin[own + 3] = radius;
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
