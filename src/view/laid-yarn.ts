import { ByteType, type DataTexture, FloatType, InstancedBufferAttribute, RGBAFormat, RGBAIntegerFormat, UnsignedIntType } from 'three';
import type { Fabric } from '../fabric/fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';
import { lastPointOf, PIECE_POINTS, POINT_STRIDE, type YarnLay, type YarnThread } from '../yarn/yarn-lay.ts';
import { paddedLength } from './cloth-geometry.ts';
import type { Rgb } from './colour.ts';
import { numberTexture } from './data-texture.ts';
import { litLoops, LOOK, packLook } from './loop-looks.ts';
import { firstYarn, type YarnRay } from './nearest-yarn.ts';
import type { Lit } from './sock-view-types.ts';
import { boundBlocks, gatherPieces, type Planes } from './yarn-blocks.ts';

/** Words of a piece in its texture: look, last control point of its length, place on the scale of colours (a float's bits), and what it lies in. */
const WORDS = 4;

/** Millimetres from the cuff at which a sock's inside is as dark as it gets, and light there and at the cuff; as in shaders/cloth.frag.glsl. */
const DARK_MM = 55, CUFF_LIGHT = 0.62, DEEP_LIGHT = 0.2;

/** What paints the pieces of a yarn. */
export interface YarnPaint { readonly colours: readonly Rgb[]; readonly hoveredLoop: number; readonly lit: Lit | null }

/** What the fabric knows at each of its vertices: how hollow it is (cloth-pose.ts). A flat piece has no inside. */
export interface Within { readonly hollow: Float64Array; readonly isSheet: boolean }

/** Fabric vertex that a piece of yarn lies at: of a wrap that of its host, of a graft or bind-off that of the loop it closes; -1 for none. */
export function vertexAt(fabric: Fabric, grid: StitchGrid, loop: number): number {
  for (let at = loop, step = 0; at >= 0 && step < 3; step++) {
    if (fabric.loopVertex[at] >= 0) return fabric.loopVertex[at];
    at = grid.wrapHost[at] >= 0 ? grid.wrapHost[at] : grid.parentStart[at] < grid.parentStart[at + 1] ? grid.parents[grid.parentStart[at]] : -1;
  }
  return -1;
}

function smoothstep(t: number): number { return t * t * (3 - 2 * t); }

/** One fabric's yarn on the GPU, with room for so many pieces, its CPU arrays kept so that a restored context can be filled again. */
export class LaidYarn {
  readonly points: DataTexture;
  readonly ups: DataTexture;
  readonly pieces: DataTexture;
  /** Numbers of the pieces that are drawn. */
  readonly drawn: InstancedBufferAttribute;
  drawnCount = 0;
  thread: YarnThread | null = null;
  private diameterMm: Float64Array = new Float64Array(0);
  private readonly fabric: Fabric;
  private readonly grid: StitchGrid;
  private readonly words: Uint32Array;
  private readonly floats: Float32Array;
  private spheres: Float64Array = new Float64Array(0);

  constructor(fabric: Fabric, grid: StitchGrid, mostPieces: number) {
    this.fabric = fabric;
    this.grid = grid;
    const points = paddedLength(PIECE_POINTS * mostPieces), buffer = new ArrayBuffer(4 * WORDS * paddedLength(mostPieces));
    this.points = numberTexture(new Float32Array(POINT_STRIDE * points), 4, RGBAFormat, FloatType);
    this.ups = numberTexture(new Int8Array(4 * points), 4, RGBAIntegerFormat, ByteType, 'RGBA8I');
    this.pieces = numberTexture(new Uint32Array(buffer), WORDS, RGBAIntegerFormat, UnsignedIntType, 'RGBA32UI');
    this.words = new Uint32Array(buffer);
    this.floats = new Float32Array(buffer);
    this.drawn = new InstancedBufferAttribute(new Uint32Array(mostPieces), 1);
  }

  /** Takes over a lay of at most as many pieces as there is room for. */
  fill(lay: YarnLay, { hollow, isSheet }: Within): void {
    const { thread, points, ups, diameterMm } = lay, { fabric, grid, words } = this;
    this.thread = thread;
    this.diameterMm = diameterMm;
    (this.points.image.data as Float32Array).set(points);
    (this.ups.image.data as Int8Array).set(ups);
    for (let k = 0; k + 1 < thread.lengthStart.length; k++) {
      const last = lastPointOf(thread, thread.lengthStart[k]);
      for (let piece = thread.lengthStart[k]; piece < thread.lengthStart[k + 1]; piece++) words[WORDS * piece + 1] = last;
    }
    for (let piece = 0; piece < thread.pieceCount; piece++) {
      const vertex = vertexAt(fabric, grid, thread.loop[piece]), radius = Math.round(500 * diameterMm[thread.yarn[piece]]);
      const crease = vertex < 0 || vertex >= hollow.length ? 0 : Math.min(1, Math.max(-1, hollow[vertex]));
      const fromCuff = vertex < 0 ? 0 : Math.min(1, (fabric.vertexRow[vertex] * fabric.waleMm) / DARK_MM);
      const light = isSheet ? 1 : CUFF_LIGHT + (DEEP_LIGHT - CUFF_LIGHT) * smoothstep(fromCuff);
      words[WORDS * piece + 3] = (radius | (Math.round(127.5 + 127.5 * crease) << 16) | (Math.round(255 * light) << 24)) >>> 0;
    }
    this.spheres = boundBlocks(points, thread.pieceCount, Math.max(...diameterMm));
    this.points.needsUpdate = this.ups.needsUpdate = this.pieces.needsUpdate = true;
    this.drawnCount = 0;
  }

  /** The loop whose yarn a ray meets first near a place on it; -1 for none. */
  pick(ray: YarnRay, near: ArrayLike<number>, reachMm: number): number {
    const { thread, diameterMm } = this;
    if (thread === null) return -1;
    const piece = firstYarn({ thread, points: this.points.image.data as Float32Array, diameterMm }, ray, near, reachMm);
    return piece < 0 ? -1 : thread.loop[piece];
  }

  /** Packs every piece's look. */
  paint({ colours, hoveredLoop, lit }: YarnPaint): void {
    const { thread, grid, words } = this, isLit = litLoops(grid.loopCount, lit);
    for (let piece = 0; thread !== null && piece < thread.pieceCount; piece++) {
      const loop = thread.loop[piece], bits = loop === hoveredLoop ? LOOK.lit : 0;
      words[WORDS * piece] = packLook(bits, colours[Math.min(grid.yarn[loop], colours.length - 1)], loop, isLit[loop]);
    }
    this.pieces.needsUpdate = true;
  }

  /** Places on the scale of colours, by vertex. */
  map(places: ArrayLike<number>): void {
    const { thread, fabric, grid, floats } = this;
    for (let piece = 0; thread !== null && piece < thread.pieceCount; piece++) {
      const vertex = vertexAt(fabric, grid, thread.loop[piece]);
      floats[WORDS * piece + 2] = vertex < 0 ? 0 : places[vertex];
    }
    this.pieces.needsUpdate = true;
  }

  /** Draws only the pieces within these planes, which are the fabric's own; returns how many. */
  show(planes: Planes): number {
    const { thread, drawn } = this;
    this.drawnCount = thread === null ? 0 : gatherPieces(drawn.array as Uint32Array, this.spheres, thread.pieceCount, planes);
    drawn.needsUpdate = true;
    return this.drawnCount;
  }

  dispose(): void {
    for (const part of [this.points, this.ups, this.pieces]) part.dispose();
  }
}
