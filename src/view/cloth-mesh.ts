import { BufferGeometry, CustomBlending, Group, Mesh, NormalBlending, OneFactor, OneMinusSrcAlphaFactor, type RawShaderMaterial, type Vector2, type Vector3 } from 'three';
import type { Fabric } from '../fabric/fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { ClothGeometry } from './cloth-geometry.ts';
import { createClothMaterials, createClothUniforms, createYarnMaterial } from './cloth-material.ts';
import { linearColour, type Rgb, type Scheme, woolColours } from './colour.ts';
import { LoadedCloth } from './loaded-cloth.ts';
import { buildPicker, type Picker } from './pick-loop.ts';
import { GrowingCloth } from './growing-cloth.ts';
import type { ClothMap, GrowthFrame, Lit } from './sock-view-types.ts';
import { Veil } from './veil.ts';

/** Cloth like glass where it is seen straight on: this much of it is cloth; chosen by eye. */
const GLASS = 0.3;

/** Cloth as it is; like glass, so that a foot shows through; as a veil behind all else with an outline over it. */
export type ClothLook = 'solid' | 'glass' | 'veil';

/** What rays can hit of a cloth. */
export interface Pickable { readonly picker: Picker; readonly cloth: ClothGeometry; readonly fabric: Fabric }

/** The knitted cloth: one geometry drawn twice, its outside first, so that most of its inside is hidden before it is shaded; and its wraps. */
export class ClothMesh {
  readonly group = new Group();
  private readonly uniforms = createClothUniforms();
  private readonly empty = new BufferGeometry();
  private readonly sides = [false, true].map((isInside) =>
    new Mesh<BufferGeometry, RawShaderMaterial[]>(this.empty, createClothMaterials(this.uniforms, isInside)));
  private readonly wraps = new Mesh(this.empty, createYarnMaterial(this.uniforms));
  private readonly veil = new Veil(this.empty);
  private loaded: LoadedCloth | null = null;
  private growing: GrowingCloth | null = null;
  private map: ClothMap | null = null;
  private lit: Lit | null = null;
  private waiting: { readonly fabric: Fabric; readonly grid: StitchGrid; readonly colours: readonly Rgb[] } | null = null;
  private colours: readonly Rgb[] = woolColours([]);
  private growthColours: readonly string[] = [];
  private picker: Picker | null = null;

  constructor() {
    this.group.visible = false;
    [...this.sides, this.wraps].forEach((mesh, order) => {
      mesh.frustumCulled = false;
      mesh.renderOrder = order;
      this.group.add(mesh);
    });
    this.group.add(...this.veil.meshes);
    this.setLook('solid');
  }

  /** Kept until its first positions come: until then the cloth before it stays in the picture. */
  setFabric(fabric: Fabric, grid: StitchGrid, colours: readonly string[]): void {
    this.waiting = { fabric, grid, colours: woolColours(colours) };
  }

  /** Three entries a vertex of the last fabric set, mm. */
  setPositions(positions: Float64Array): void {
    if (this.waiting) {
      this.colours = this.waiting.colours;
      this.load(new LoadedCloth(this.waiting.fabric, this.waiting.grid));
      this.waiting = null;
    }
    this.loaded?.pose(positions);
    this.picker = null;
    this.group.visible = this.shown !== null;
  }

  /** Shows a sock as it grows in place of the cloth set last; null brings that back. */
  setGrowth(frame: GrowthFrame | null): void {
    if (frame === null) {
      if (this.growing === null) return;
      this.growing.dispose();
      this.growing = null;
      if (this.loaded !== null) this.wear(this.loaded, this.colours);
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
      this.growing.grow(frame.pass, frame.positions);
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
  }

  setLook(look: ClothLook): void {
    const isGlass = look === 'glass';
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

  /** Size of the picture in pixels of the screen, and pixels for each of CSS. */
  setViewport(width: number, height: number, ratio: number): void { this.veil.setViewport(width, height, ratio); }

  /** Lights the loop of a fabric vertex, of none for -1. */
  setHovered(vertex: number): void { this.paint(vertex); }

  /** Built when first asked for after the shape has changed; null without a shape. */
  pickable(): Pickable | null {
    const { shown } = this;
    if (!shown) return null;
    this.picker ??= buildPicker(shown.drawnIndex(), shown.posed.positions);
    return { picker: this.picker, cloth: { ...shown.cloth, index: this.picker.index }, fabric: shown.fabric };
  }

  /** Frees the GPU's part; a later drawing sends it again. */
  dispose(): void {
    this.loaded?.dispose();
    this.growing?.dispose();
    this.empty.dispose();
    for (const mesh of this.sides) for (const material of mesh.material) material.dispose();
    this.wraps.material.dispose();
    this.veil.dispose();
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
    this.uniforms.u_corners.value = next.corners;
    this.uniforms.u_looks.value = next.looks;
    this.uniforms.u_mapped.value = this.map === null || this.growing !== null ? 0 : 1;
    const { waleMm, courseMm, ribCourseMm } = next.fabric;
    (this.uniforms.u_aspect.value as Vector2).set(waleMm / courseMm, waleMm / ribCourseMm);
    next.paint(colours, -1, this.lit);
  }

  private paint(hovered: number): void {
    this.shown?.paint(this.growing === null ? this.colours : woolColours(this.growthColours), hovered, this.lit);
  }
}
