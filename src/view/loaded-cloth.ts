import { BufferAttribute, BufferGeometry, type DataTexture, FloatType, RedIntegerFormat, RGBAFormat, UnsignedIntType } from 'three';
import type { Fabric } from '../fabric/fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';
import { vertexNormals } from '../yarn/vertex-normals.ts';
import { buildCloth, type ClothGeometry, paddedLength } from './cloth-geometry.ts';
import { type PosedCloth, poseClothInto } from './cloth-pose.ts';
import { placeOnScale } from './colour-scale.ts';
import type { Rgb } from './colour.ts';
import { numberTexture } from './data-texture.ts';
import { LIT, litColour, litLoops, LOOK, packLooksInto } from './loop-looks.ts';
import { vertexAt, type Within } from './laid-yarn.ts';
import type { ClothMap, Lit } from './sock-view-types.ts';
import { createWrapBars, findWraps, poseWrapsInto, type WrapBars, type WrapPlace } from './wrap-bars.ts';

function geometryOf(index: Uint32Array, attributes: Readonly<Record<string, readonly [Float32Array | Int32Array | Uint32Array, number]>>): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setIndex(new BufferAttribute(index, 1));
  for (const [name, [array, size]] of Object.entries(attributes)) geometry.setAttribute(name, new BufferAttribute(array, size));
  return geometry;
}

/** One sock's cloth on the GPU, its CPU arrays kept so that a restored context can be filled again. */
export class LoadedCloth {
  readonly fabric: Fabric;
  readonly cloth: ClothGeometry;
  readonly posed: PosedCloth;
  readonly geometry: BufferGeometry;
  readonly wrapGeometry: BufferGeometry;
  readonly corners: DataTexture;
  readonly looks: DataTexture;
  protected readonly grid: StitchGrid;
  protected readonly wraps: readonly WrapPlace[];
  protected readonly bars: WrapBars;

  /** `moreEdges`: room in the hem for edges that are boundary for a while. */
  constructor(fabric: Fabric, grid: StitchGrid, moreEdges = 0) {
    this.fabric = fabric;
    this.grid = grid;
    const cloth = this.cloth = buildCloth(fabric, grid, moreEdges), n = cloth.vertexCount;
    const posed = this.posed = { positions: new Float32Array(3 * n), normals: new Float32Array(3 * n), hollow: new Float32Array(2 * n) };
    this.geometry = geometryOf(cloth.index, {
      position: [posed.positions, 3], a_normal: [posed.normals, 3], a_hollow: [posed.hollow, 2],
      a_rest: [cloth.rest, 2], a_cell: [cloth.cellOf, 2], a_look: [new Uint32Array(n), 1], a_looks: [new Uint32Array(4 * n), 4],
      a_onScale: [new Float32Array(n), 1],
    });
    cloth.kindStart.slice(1).forEach((end, kind) => { this.geometry.addGroup(cloth.kindStart[kind], end - cloth.kindStart[kind], kind); });
    this.wraps = findWraps(fabric, grid);
    const bars = this.bars = createWrapBars(this.wraps.length);
    this.wrapGeometry = geometryOf(bars.index, {
      position: [bars.positions, 3], a_normal: [bars.normals, 3], a_along: [bars.along, 2], a_colour: [new Float32Array(bars.positions.length), 3],
      a_onScale: [new Float32Array(bars.positions.length / 3), 1], a_marked: [new Float32Array(bars.positions.length / 3), 1],
    });
    this.corners = numberTexture(cloth.corners, 4, RGBAFormat, FloatType);
    this.looks = numberTexture(new Uint32Array(paddedLength(fabric.vertexCount)), 1, RedIntegerFormat, UnsignedIntType, 'R32UI');
  }

  /** Three entries a fabric vertex, mm. */
  pose(positions: Float64Array): void {
    const normals = vertexNormals(this.fabric, positions);
    poseClothInto(this.posed, this.cloth, this.fabric, positions, normals);
    poseWrapsInto(this.bars, this.wraps, positions, normals, this.fabric.courseMm);
    for (const name of ['position', 'a_normal', 'a_hollow']) this.geometry.getAttribute(name).needsUpdate = true;
    for (const name of ['position', 'a_normal']) this.wrapGeometry.getAttribute(name).needsUpdate = true;
  }

  /** Fabric vertex at which a loop of any kind lies; -1 for none. */
  vertexAt(loop: number): number { return vertexAt(this.fabric, this.grid, loop); }

  /** What its yarn lies in as the cloth was posed last; `hollow` by vertex. */
  within(): Within {
    const { cloth: { source }, posed } = this, hollow = new Float64Array(this.fabric.vertexCount);
    for (let i = 0; i < source.length; i++) hollow[source[i]] = posed.hollow[2 * i];
    return { hollow, isSheet: posed.hollow[1] < 0 };
  }

  /** The index of what is drawn, for picking. */
  drawnIndex(): Uint32Array { return this.cloth.index; }

  /** Packs every loop's look and gathers them at the drawn vertices; the loop of fabric vertex `hovered` is marked, of none for -1, and loops that are lit. */
  paint(colours: readonly Rgb[], hovered: number, lit: Lit | null): void {
    const { cloth, looks } = this, words = looks.image.data as Uint32Array, isLit = litLoops(this.grid.loopCount, lit);
    packLooksInto(words, cloth.looks, this.fabric, this.grid, colours, isLit);
    if (hovered >= 0) words[hovered] = (words[hovered] | (LOOK.lit << 24)) >>> 0;
    this.gatherLooks(0, cloth.vertexCount);
    looks.needsUpdate = true;
    const wrapColour = this.wrapGeometry.getAttribute('a_colour') as BufferAttribute, marked = this.wrapGeometry.getAttribute('a_marked') as BufferAttribute, { pointsPerBar } = this.bars;
    this.wraps.forEach(({ loop }, bar) => {
      const own = colours[Math.min(this.grid.yarn[loop], colours.length - 1)], rgb = litColour(own, isLit[loop]);
      for (let i = bar * pointsPerBar; i < (bar + 1) * pointsPerBar; i++) wrapColour.array.set(rgb, 3 * i);
      marked.array.fill(isLit[loop] === LIT.none ? 0 : 1, bar * pointsPerBar, (bar + 1) * pointsPerBar);
    });
    wrapColour.needsUpdate = marked.needsUpdate = true;
  }

  /** Takes the packed looks to the drawn vertices from one up to another. */
  protected gatherLooks(from: number, to: number): void {
    const { cloth, geometry, looks } = this, words = looks.image.data as Uint32Array;
    const own = geometry.getAttribute('a_look') as BufferAttribute, quad = geometry.getAttribute('a_looks') as BufferAttribute;
    for (let i = from; i < to; i++) own.array[i] = words[cloth.source[i]];
    for (let i = 4 * from; i < 4 * to; i++) quad.array[i] = words[cloth.quadOf[i]];
    own.needsUpdate = quad.needsUpdate = true;
  }

  /** Takes the places of a map's numbers on its scale; a wrap takes its host's. */
  map({ values, scale }: ClothMap): void {
    const places = Float32Array.from(values, (value) => placeOnScale(scale, value)), { source } = this.cloth, { pointsPerBar } = this.bars;
    const own = this.geometry.getAttribute('a_onScale') as BufferAttribute;
    for (let i = 0; i < source.length; i++) own.array[i] = places[source[i]];
    const wrap = this.wrapGeometry.getAttribute('a_onScale') as BufferAttribute;
    this.wraps.forEach(({ host }, bar) => { wrap.array.fill(places[host], bar * pointsPerBar, (bar + 1) * pointsPerBar); });
    own.needsUpdate = wrap.needsUpdate = true;
  }

  dispose(): void {
    for (const part of [this.geometry, this.wrapGeometry, this.corners, this.looks]) part.dispose();
  }
}
