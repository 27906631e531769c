import { Frustum, type InstancedBufferGeometry, Matrix4, Mesh, type RawShaderMaterial } from 'three';
import type { Fabric } from '../fabric/fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';
import { layYarn } from '../yarn/lay-yarn.ts';
import { threadYarn } from '../yarn/thread-yarn.ts';
import type { ClothUniforms } from './cloth-material.ts';
import type { DrawnFrame } from './drawn-frame.ts';
import { LaidYarn, type Within, type YarnPaint } from './laid-yarn.ts';
import type { YarnRay } from './nearest-yarn.ts';
import type { PicturePart } from './sock-view-types.ts';
import { bodyAt, HALO, levelFor, RELIEF_SIDES, YARN_LEVELS } from './yarn-levels.ts';
import { createYarnMaterial, createYarnUniforms } from './yarn-material.ts';
import { tubeGeometry } from './yarn-tube.ts';

/** Yarn that takes longer than this to lay, ms, is not laid anew for every frame of cloth in motion. */
const QUICK_LAY_MS = 45;

/** Cloth whose yarn can be laid; `diametersMm` by grid.yarn. */
export interface YarnSource { readonly fabric: Fabric; readonly grid: StitchGrid; readonly diametersMm: readonly number[] }

/** How it lies: as much of the fabric as there is, its places (three entries a vertex, mm), whether between two plates, and after which pass, null for a finished piece. */
export interface YarnShape {
  readonly part: Fabric;
  readonly positions: Float64Array;
  readonly isFlat: boolean;
  readonly upToPass: number | null;
  readonly within: () => Within;
}

/** The yarn of a cloth as tubes, all in one draw call. It is laid when it is first to be seen, and laid anew only after the cloth has moved. */
export class YarnCloth {
  readonly mesh: Mesh<InstancedBufferGeometry, RawShaderMaterial>;
  private readonly clothUniforms: ClothUniforms;
  private readonly uniforms = createYarnUniforms();
  private readonly materials = new Map<string, RawShaderMaterial>();
  private geometries: readonly InstancedBufferGeometry[] = [];
  private source: YarnSource | null = null;
  private shape: YarnShape | null = null;
  private paint: YarnPaint | null = null;
  private places: ArrayLike<number> | null = null;
  private laid: LaidYarn | null = null;
  private isStale = true;
  private threadedTo: number | null = null;
  private layMs = 0;
  private cutY: number | null = null;

  constructor(clothUniforms: ClothUniforms) {
    this.clothUniforms = clothUniforms;
    this.mesh = new Mesh<InstancedBufferGeometry, RawShaderMaterial>(undefined, this.material(false));
    this.mesh.frustumCulled = false;
    this.mesh.visible = false;
  }

  setShape(source: YarnSource, shape: YarnShape): void {
    if (source.fabric !== this.source?.fabric || source.grid !== this.source.grid) {
      this.drop();
      this.places = null;
    }
    this.source = source;
    this.shape = shape;
    this.isStale = true;
  }

  setPaint(paint: YarnPaint): void {
    this.paint = paint;
    if (!this.isStale) this.laid?.paint(paint);
  }

  /** Places on the scale of colours, by vertex. */
  setMap(places: ArrayLike<number>): void {
    this.places = places;
    if (!this.isStale) this.laid?.map(places);
  }

  /** Cuts away what has a smaller y; null cuts nothing. */
  setCut(y: number | null): void { this.cutY = y; }

  /** Shows what of it is in the picture, a share of it where it is only coming up; returns how many pieces, 0 where it may not be laid or drawn now. */
  show(frame: DrawnFrame, pixels: number, share: number): number {
    const { source, shape } = this;
    this.mesh.visible = false;
    if (share <= 0 || frame.finest < 0 || source === null || shape === null) return 0;
    if (this.isStale) {
      if (frame.isMoving && this.layMs > QUICK_LAY_MS) return 0;
      this.lay(source, shape);
    }
    const { laid } = this;
    if (laid === null) return 0;
    const pieces = laid.show(this.planes(frame)), level = levelFor(pixels, pieces, frame.finest, frame.mostTriangles);
    if (level < 0 || pieces === 0) return 0;
    const geometry = this.geometries[level], { uniforms, mesh } = this, { hasPlies, sides } = YARN_LEVELS[level];
    geometry.instanceCount = pieces;
    mesh.geometry = geometry;
    mesh.material = this.material(hasPlies);
    uniforms.u_halo.value = hasPlies ? HALO : 0;
    uniforms.u_body.value = bodyAt(pixels / frame.detailRatio);
    uniforms.u_relief.value = sides >= RELIEF_SIDES ? 1 : 0;
    uniforms.u_shown.value = share;
    uniforms.u_pixels.value = (frame.height * frame.ratio * frame.camera.projectionMatrix.elements[5]) / 2;
    mesh.visible = true;
    return pieces;
  }

  /** The loop whose yarn a ray meets first near a place on it, -1 where yarn is not what is seen there. */
  pick(ray: YarnRay, near: ArrayLike<number>, reachMm: number): number {
    return this.mesh.visible && !this.isStale ? this.laid?.pick(ray, near, reachMm) ?? -1 : -1;
  }

  hide(): void { this.mesh.visible = false; }

  /** Frees the GPU's part; a later drawing sends it again. */
  dispose(): void {
    for (const geometry of this.geometries) geometry.dispose();
    for (const material of this.materials.values()) material.dispose();
    this.laid?.dispose();
  }

  private lay(source: YarnSource, { part, positions, isFlat, upToPass, within }: YarnShape): void {
    const begun = performance.now(), { grid, diametersMm } = source, thread = this.laid?.thread != null && upToPass === this.threadedTo ? this.laid.thread : threadYarn(grid, { upToPass });
    this.laid ??= this.makeRoom(source, thread.pieceCount);
    this.laid.fill(layYarn({ fabric: part, grid, thread, diameterMm: Float64Array.from(diametersMm) }, positions, { isFlat }), within());
    if (this.paint !== null) this.laid.paint(this.paint);
    if (this.places !== null) this.laid.map(this.places);
    this.threadedTo = upToPass;
    this.isStale = false;
    this.layMs = performance.now() - begun;
  }

  /** A growing piece will have as many pieces as the finished one. */
  private makeRoom({ fabric, grid }: YarnSource, pieceCount: number): LaidYarn {
    const laid = new LaidYarn(fabric, grid, this.shape?.upToPass === null ? pieceCount : threadYarn(grid).pieceCount), { uniforms } = this;
    this.geometries = YARN_LEVELS.map((level) => tubeGeometry(level, laid.drawn));
    uniforms.u_points.value = laid.points;
    uniforms.u_ups.value = laid.ups;
    uniforms.u_pieces.value = laid.pieces;
    return laid;
  }

  private drop(): void {
    this.laid?.dispose();
    for (const geometry of this.geometries) geometry.dispose();
    this.laid = null;
    this.geometries = [];
    this.mesh.visible = false;
  }

  /** The sides of the picture or of its part, and the plane of the cut, in the fabric's own space. */
  private planes({ camera, part }: DrawnFrame): number[] {
    const toClip = new Matrix4().multiplyMatrices(camera.projectionMatrix, camera.matrixWorldInverse).multiply(this.mesh.matrixWorld);
    if (part !== null) toClip.premultiply(cropTo(part));
    const planes = new Frustum().setFromProjectionMatrix(toClip).planes.flatMap(({ normal, constant }) => [...normal.toArray(), constant]);
    return this.cutY === null ? planes : [...planes, 0, 1, 0, -this.cutY];
  }

  private material(hasPlies: boolean): RawShaderMaterial {
    const isCut = this.cutY !== null, key = `${hasPlies} ${isCut}`, known = this.materials.get(key);
    if (known !== undefined) return known;
    const made = createYarnMaterial(this.clothUniforms, this.uniforms, hasPlies, isCut);
    this.materials.set(key, made);
    return made;
  }
}

/** Brings a part of the picture to where the whole lies, -1 to 1 both ways. */
function cropTo({ left, top, width, height, wholeWidth, wholeHeight }: PicturePart): Matrix4 {
  const x = wholeWidth / width, y = wholeHeight / height, right = (2 * left + width) / wholeWidth - 1, up = 1 - (2 * top + height) / wholeHeight;
  return new Matrix4().set(x, 0, 0, -x * right, 0, y, 0, -y * up, 0, 0, 1, 0, 0, 0, 0, 1);
}
