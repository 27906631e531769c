import { BufferGeometry, CustomBlending, Group, Mesh, NormalBlending, OneFactor, OneMinusSrcAlphaFactor, type RawShaderMaterial, type Vector2, type Vector3, type WebGLRenderer } from 'three';
import type { Fabric } from '../fabric/fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';
import { vertexNormals } from '../yarn/vertex-normals.ts';
import type { ClothGeometry } from './cloth-geometry.ts';
import { createClothMaterials, createClothUniforms, createWrapMaterial } from './cloth-material.ts';
import { placeOnScale } from './colour-scale.ts';
import { linearColour, type Rgb, type Scheme, woolColours } from './colour.ts';
import type { DrawnFrame } from './drawn-frame.ts';
import { Lining } from './lining.ts';
import { LoadedCloth } from './loaded-cloth.ts';
import { buildPicker, castRay, nearestVertex, type Picker } from './pick-loop.ts';
import type { Spot, Vector } from './frame-camera.ts';
import { GrowingCloth } from './growing-cloth.ts';
import { nearestDepth, pixelsAt } from './nearest-stitch.ts';
import type { ClothMap, DetailLevel, GrowthFrame, Lit } from './sock-view-types.ts';
import { Veil } from './veil.ts';
import { YarnCloth, type YarnShape, type YarnSource } from './yarn-cloth.ts';
import { fadeAt, restAt, YarnFade } from './yarn-fade.ts';

/** Cloth like glass where it is seen straight on: this much of it is cloth; chosen by eye. */
const GLASS = 0.3;

/** Cloth as it is; like glass, so that a foot shows through; as a veil behind all else with an outline over it. */
export type ClothLook = 'solid' | 'glass' | 'veil';

/** What rays can hit of a cloth. */
export interface Pickable { readonly picker: Picker; readonly cloth: ClothGeometry; readonly fabric: Fabric; readonly cutY: number | null }

/** Thickness of a yarn of which none is told, in stitches: a washed plain fabric's (yarn/yarn-size.ts at 30 x 42 in 10 cm and 420 m in 100 g). */
const USUAL_DIAMETER = 0.27;
/** Stitches from where a ray meets the surface within which it can meet yarn. */
const REACH_STITCHES = 4;
/** A vertex under the pointer, the loop that is seen there, and how far it is from the eye. */
export interface PickedVertex { readonly vertex: number; readonly loop: number; readonly distance: number }

/** Stitches beside the picture that count as in it. */
const MARGIN_STITCHES = 2;

/** What a frame draws of a cloth. */
export interface ClothDetail {
  readonly pixelsPerStitch: number;
  readonly level: DetailLevel;
  readonly pieces: number;
  /** Whether it is on the way from mesh to yarn or back, and needs another frame though nothing moves. */
  readonly isFading: boolean;
}

/** The knitted cloth: one geometry drawn twice, its outside first, so that most of its inside is hidden before it is shaded; its wraps; and near the eye its yarn in their place. */
export class ClothMesh {
  readonly group = new Group();
  private readonly uniforms = createClothUniforms();
  private readonly empty = new BufferGeometry();
  private readonly sides = [false, true].map((isInside) =>
    new Mesh<BufferGeometry, RawShaderMaterial[]>(this.empty, createClothMaterials(this.uniforms, isInside)));
  private readonly wraps = new Mesh(this.empty, createWrapMaterial(this.uniforms));
  private readonly lining = new Lining(this.uniforms);
  private readonly veil = new Veil(this.empty);
  private readonly yarn = new YarnCloth(this.uniforms);
  private readonly fade = new YarnFade();
  private loaded: LoadedCloth | null = null;
  private growing: GrowingCloth | null = null;
  private map: ClothMap | null = null;
  private lit: Lit | null = null;
  private waiting: (YarnSource & { readonly colours: readonly Rgb[] }) | null = null;
  /** The cloth set last as yarn, and that which is shown. */
  private source: YarnSource | null = null;
  private shape: YarnShape | null = null;
  private shownShape: YarnShape | null = null;
  private look: ClothLook = 'solid';
  private meshShare = 1;
  private cutY: number | null = null;
  private colours: readonly Rgb[] = woolColours([]);
  private growthColours: readonly string[] = [];
  private picker: Picker | null = null;

  constructor() {
    this.group.visible = false;
    [...this.sides, this.wraps].forEach((mesh, order) => {
      mesh.frustumCulled = false;
      mesh.renderOrder = order;
      mesh.onBeforeRender = this.thin;
      mesh.onAfterRender = restoreCoverage;
      this.group.add(mesh);
    });
    this.group.add(this.lining.mesh, this.yarn.mesh, ...this.veil.meshes);
    this.setLook('solid');
  }

  /** Kept until its first positions come: until then the cloth before it stays in the picture. */
  setFabric(fabric: Fabric, grid: StitchGrid, colours: readonly string[], diametersMm: readonly number[] = []): void {
    this.waiting = { fabric, grid, diametersMm: thicknesses(fabric, colours, diametersMm), colours: woolColours(colours) };
  }

  /** Three entries a vertex of the last fabric set, mm; `isFlat`: those of a sock laid flat. */
  setPositions(positions: Float64Array, isFlat: boolean): void {
    if (this.waiting) {
      this.colours = this.waiting.colours;
      this.source = this.waiting;
      this.load(new LoadedCloth(this.waiting.fabric, this.waiting.grid));
      this.waiting = null;
    }
    const { loaded, source } = this;
    this.picker = null;
    if (loaded !== null && source !== null) {
      loaded.pose(positions);
      this.shape = { part: loaded.fabric, positions, isFlat, upToPass: null, within: () => loaded.within() };
      if (this.growing === null) this.lie(source, this.shape);
    }
    this.group.visible = this.shown !== null;
  }

  /** Shows a sock as it grows in place of the cloth set last; null brings that back. */
  setGrowth(frame: GrowthFrame | null): void {
    if (frame === null) {
      if (this.growing === null) return;
      this.growing.dispose();
      this.growing = null;
      if (this.loaded !== null) this.wear(this.loaded, this.colours);
      if (this.source !== null && this.shape !== null) this.lie(this.source, this.shape);
    } else {
      if (this.growing?.growing !== frame.cloth) {
        this.growing?.dispose();
        this.growing = new GrowingCloth(frame.cloth, frame.grid);
        this.growthColours = frame.yarnColours;
        this.wear(this.growing, woolColours(frame.yarnColours));
      } else if (this.growthColours.join() !== frame.yarnColours.join()) {
        this.growthColours = frame.yarnColours;
        this.paint(-1);
      }
      const { growing } = this, part = growing.grow(frame.pass, frame.positions), { fabric } = growing;
      const diametersMm = thicknesses(fabric, frame.yarnColours, frame.diametersMm ?? []);
      this.lie({ fabric, grid: frame.grid, diametersMm }, { part, positions: frame.positions, isFlat: false, upToPass: frame.pass, within: () => growing.within() });
    }
    this.picker = null;
    this.group.visible = this.shown !== null;
  }

  setLit(lit: Lit | null): void {
    this.lit = lit;
    this.paint(-1);
  }

  /** Of the cloth as it lies since the last positions; null shows its yarn. */
  setMap(map: ClothMap | null): void {
    this.map = map;
    this.uniforms.u_mapped.value = map === null || this.growing !== null ? 0 : 1;
    if (map === null) return;
    const { steps } = map.scale;
    (this.uniforms.u_scale.value as Vector3[]).forEach((root, i) => {
      root.set(...linearColour(steps[Math.min(i, steps.length - 1)].colour)).set(Math.sqrt(root.x), Math.sqrt(root.y), Math.sqrt(root.z));
    });
    this.loaded?.map(map);
    if (this.growing === null) this.mapYarn(map);
  }

  setLook(look: ClothLook): void {
    const isGlass = look === 'glass';
    this.look = look;
    this.uniforms.u_glass.value = isGlass ? GLASS : 1;
    for (const mesh of [...this.sides, this.wraps]) mesh.visible = look !== 'veil';
    for (const material of [...this.sides.flatMap((mesh) => mesh.material), this.wraps.material]) {
      material.transparent = isGlass;
      material.blending = isGlass ? CustomBlending : NormalBlending;
      material.blendSrc = OneFactor;
      material.blendDst = OneMinusSrcAlphaFactor;
    }
    this.veil.show(look);
  }

  setYarnColours(colours: readonly string[]): void {
    if (this.waiting) this.waiting = { ...this.waiting, colours: woolColours(colours) };
    this.colours = woolColours(colours);
    this.paint(-1);
  }

  setScheme(scheme: Scheme): void {
    const set = (name: string, rgb: Rgb): void => { (this.uniforms[name].value as Vector3).set(...rgb); };
    set('u_key', scheme.key);
    set('u_sky', scheme.sky);
    set('u_ground', scheme.ground);
    set('u_rim', scheme.rim);
    set('u_paper', scheme.backdropBottom);
    this.veil.setScheme(scheme);
  }

  /** Share of the backdrop's colour in the cloth's, 0..1. */
  setDim(share: number): void { this.uniforms.u_dim.value = share; }

  /** Pixels a stitch at which knitting begins to show and at which it is full. */
  setDetail(from: number, to: number): void { (this.uniforms.u_detail.value as Vector2).set(from, to); }

  /** Before each drawing: what is drawn of it, as a surface, as yarn, or one over the other. Seen through or as a veil it is a surface. */
  prepare(frame: DrawnFrame): ClothDetail {
    const { width, height, ratio } = frame;
    this.veil.setViewport(width, height, ratio);
    const pixelsPerStitch = this.pixelsPerStitch(frame), pixels = pixelsPerStitch * frame.detailRatio, seen = this.look === 'solid' ? pixels : 0;
    // A picture that is taken is as it would stay, whatever the page's own is on the way to.
    const share = fadeAt(frame.isTaken ? restAt(seen) : this.fade.next(seen, frame.fade, frame.time)), pieces = this.yarn.show(frame, pixels, share.yarn);
    this.meshShare = pieces > 0 ? share.mesh : 1;
    for (const mesh of [...this.sides, this.wraps]) mesh.visible = this.look !== 'veil' && this.meshShare > 0;
    this.lining.mesh.visible = this.meshShare === 0;
    const level = pieces === 0 ? 'mesh' : this.meshShare > 0 ? 'blend' : 'yarn';
    return { pixelsPerStitch, pieces, level, isFading: !frame.isTaken && this.fade.isRunning };
  }

  /** Where a loop lies in the fabric as it is shown, seen from the sock's outside; null for one that is not there. */
  spotOf(loop: number): Omit<Spot, 'isOpen'> | null {
    const { shown, shownShape } = this;
    if (shown === null || shownShape === null) return null;
    const { part, positions } = shownShape, vertex = shown.vertexAt(loop);
    if (vertex < 0 || vertex >= part.vertexCount) return null;
    const normals = vertexNormals(part, positions), sign = this.uniforms.u_everted.value === 1 ? -1 : 1, at = (values: Float64Array, scale: number): Vector =>
      [scale * values[3 * vertex], scale * values[3 * vertex + 1], scale * values[3 * vertex + 2]];
    return { place: at(positions, 1), normal: at(normals, sign), stitchMm: part.courseMm };
  }

  /** Cuts away what has a smaller y than this; null cuts nothing. */
  setCut(y: number | null): void {
    const isNew = (y === null) !== (this.cutY === null);
    this.cutY = y;
    this.uniforms.u_cut.value = y ?? 0;
    this.uniforms.u_opened.value = y === null ? 0 : 1;
    this.yarn.setCut(y);
    if (!isNew) return;
    this.lining.setCut(y !== null);
    for (const material of [...this.sides.flatMap((mesh) => mesh.material), this.wraps.material]) {
      material.defines['IS_CUT'] = y === null ? 0 : 1;
      material.needsUpdate = true;
    }
  }

  /** Whether the fabric's outside faces inwards. */
  setEverted(isEverted: boolean): void {
    this.uniforms.u_everted.value = isEverted ? 1 : 0;
  }

  /** Lights the loop of a fabric vertex, of none for -1. */
  setHovered(vertex: number): void { this.paint(vertex); }

  /** Built when first asked for after the shape has changed; null without a shape. */
  pickable(): Pickable | null {
    const { shown } = this;
    if (!shown) return null;
    this.picker ??= buildPicker(shown.drawnIndex(), shown.posed.positions);
    return { picker: this.picker, cloth: { ...shown.cloth, index: this.picker.index }, fabric: shown.fabric, cutY: this.cutY };
  }

  /** The loop that a ray of the fabric's own space meets first, the vertex that it lies at, and how far off: yarn where yarn is seen, else the stitch of the surface. */
  pick(origin: Vector, direction: Vector): PickedVertex | null {
    const target = this.pickable(), lowestY = this.cutY ?? -Infinity, hit = target && castRay(target.picker, origin, direction, lowestY);
    if (target === null || hit === null) return null;
    const vertex = nearestVertex(target.cloth, hit), { distance } = hit, { shown } = this;
    if (vertex < 0 || shown === null) return null;
    const near = origin.map((value, d) => value + distance * direction[d]), yarn = this.yarn.pick({ origin, direction, lowestY }, near, REACH_STITCHES * target.fabric.courseMm);
    const at = yarn < 0 ? -1 : shown.vertexAt(yarn);
    return at < 0 ? { vertex, loop: target.fabric.vertexLoop[vertex], distance } : { vertex: at, loop: yarn, distance };
  }

  /** Frees the GPU's part; a later drawing sends it again. */
  dispose(): void {
    this.loaded?.dispose();
    this.growing?.dispose();
    this.empty.dispose();
    for (const mesh of this.sides) for (const material of mesh.material) material.dispose();
    this.wraps.material.dispose();
    this.veil.dispose();
    this.lining.dispose();
    this.yarn.dispose();
  }

  private get shown(): LoadedCloth | null { return this.growing ?? this.loaded; }

  private load(next: LoadedCloth): void {
    this.loaded?.dispose();
    this.loaded = next;
    this.setMap(null);
    if (this.growing === null) this.wear(next, this.colours);
  }

  /** Hands a cloth to the meshes. */
  private wear(next: LoadedCloth, colours: readonly Rgb[]): void {
    for (const mesh of [...this.sides, ...this.veil.meshes]) mesh.geometry = next.geometry;
    this.wraps.geometry = next.wrapGeometry;
    this.lining.wear(next.geometry, next !== this.growing, next.fabric.courseMm);
    this.uniforms.u_corners.value = next.corners;
    this.uniforms.u_looks.value = next.looks;
    this.uniforms.u_mapped.value = this.map === null || this.growing !== null ? 0 : 1;
    const { waleMm, courseMm, ribCourseMm } = next.fabric;
    (this.uniforms.u_aspect.value as Vector2).set(waleMm / courseMm, waleMm / ribCourseMm);
    next.paint(colours, -1, this.lit);
    this.yarn.setPaint({ colours, hoveredLoop: -1, lit: this.lit });
  }

  private paint(hovered: number): void {
    const { shown, lit } = this, colours = this.growing === null ? this.colours : woolColours(this.growthColours);
    shown?.paint(colours, hovered, lit);
    this.yarn.setPaint({ colours, hoveredLoop: hovered < 0 ? -1 : shown?.fabric.vertexLoop[hovered] ?? -1, lit });
  }

  private lie(source: YarnSource, shape: YarnShape): void {
    this.shownShape = shape;
    this.yarn.setShape(source, shape);
  }

  private mapYarn({ values, scale }: ClothMap): void {
    this.yarn.setMap(Float32Array.from(values, (value) => placeOnScale(scale, value)));
  }

  /** Pixels of the page that the nearest stitch in sight takes, as wide as its gauge has it; 0 for none. */
  private pixelsPerStitch({ camera, height }: DrawnFrame): number {
    const { shownShape } = this;
    if (shownShape === null) return 0;
    const { part, positions } = shownShape, { courseMm } = part;
    const depth = nearestDepth({ positions, count: part.vertexCount, matrixWorld: this.group.matrixWorld, cutY: this.cutY }, camera, MARGIN_STITCHES * courseMm);
    return depth === null ? 0 : pixelsAt(courseMm, depth, camera, height);
  }

  /** Leaves out as many samples of each pixel as the mesh has gone by: under yarn that covers it, it must only not go at once. */
  private readonly thin = (renderer: WebGLRenderer): void => {
    if (this.meshShare >= 1) return;
    const gl = renderer.getContext();
    gl.enable(gl.SAMPLE_COVERAGE);
    gl.sampleCoverage(this.meshShare, false);
  };
}

function restoreCoverage(renderer: WebGLRenderer): void {
  const gl = renderer.getContext();
  gl.disable(gl.SAMPLE_COVERAGE);
}

/** One for each yarn that has a colour. */
function thicknesses({ courseMm }: Fabric, colours: readonly string[], diametersMm: readonly number[]): number[] {
  return Array.from({ length: Math.max(1, colours.length) }, (_, yarn) => diametersMm[yarn] ?? USUAL_DIAMETER * courseMm);
}
