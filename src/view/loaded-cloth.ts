import { BufferAttribute, BufferGeometry, DataTexture, FloatType, NearestFilter, RedIntegerFormat, RGBAFormat, UnsignedIntType } from 'three';
import type { Fabric } from '../fabric/fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';
import { buildCloth, type ClothGeometry, paddedLength, TEXTURE_WIDTH } from './cloth-geometry.ts';
import { type PosedCloth, poseClothInto, vertexNormals } from './cloth-pose.ts';
import { placeOnScale } from './colour-scale.ts';
import type { Rgb } from './colour.ts';
import { LOOK, packLooksInto } from './loop-looks.ts';
import type { ClothMap } from './sock-view-types.ts';
import { createWrapBars, findWraps, poseWrapsInto, type WrapBars, type WrapPlace } from './wrap-bars.ts';

function dataTexture(texture: DataTexture): DataTexture {
  texture.minFilter = texture.magFilter = NearestFilter;
  texture.needsUpdate = true;
  return texture;
}

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
  private readonly grid: StitchGrid;
  private readonly wraps: readonly WrapPlace[];
  private readonly bars: WrapBars;

  constructor(fabric: Fabric, grid: StitchGrid) {
    this.fabric = fabric;
    this.grid = grid;
    const cloth = this.cloth = buildCloth(fabric, grid), n = cloth.vertexCount;
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
      a_onScale: [new Float32Array(bars.positions.length / 3), 1],
    });
    this.corners = dataTexture(new DataTexture(cloth.corners, TEXTURE_WIDTH, cloth.corners.length / 4 / TEXTURE_WIDTH, RGBAFormat, FloatType));
    const words = new Uint32Array(paddedLength(fabric.vertexCount));
    this.looks = dataTexture(new DataTexture(words, TEXTURE_WIDTH, words.length / TEXTURE_WIDTH, RedIntegerFormat, UnsignedIntType));
    this.looks.internalFormat = 'R32UI';
  }

  /** Three entries a fabric vertex, mm. */
  pose(positions: Float64Array): void {
    const normals = vertexNormals(this.fabric, positions);
    poseClothInto(this.posed, this.cloth, this.fabric, positions, normals);
    poseWrapsInto(this.bars, this.wraps, positions, normals, this.fabric.courseMm);
    for (const name of ['position', 'a_normal', 'a_hollow']) this.geometry.getAttribute(name).needsUpdate = true;
    for (const name of ['position', 'a_normal']) this.wrapGeometry.getAttribute(name).needsUpdate = true;
  }

  /** Packs every loop's look and gathers them at the drawn vertices; the loop of fabric vertex `lit` is marked, of none for -1. */
  paint(colours: readonly Rgb[], lit: number): void {
    const { cloth, geometry, looks } = this;
    const words = looks.image.data as Uint32Array;
    packLooksInto(words, cloth.looks, this.fabric, this.grid, colours);
    if (lit >= 0) words[lit] = (words[lit] | (LOOK.lit << 24)) >>> 0;
    const own = geometry.getAttribute('a_look') as BufferAttribute, quad = geometry.getAttribute('a_looks') as BufferAttribute;
    for (let i = 0; i < cloth.vertexCount; i++) own.array[i] = words[cloth.source[i]];
    for (let i = 0; i < cloth.quadOf.length; i++) quad.array[i] = words[cloth.quadOf[i]];
    own.needsUpdate = quad.needsUpdate = looks.needsUpdate = true;
    const wrapColour = this.wrapGeometry.getAttribute('a_colour') as BufferAttribute;
    this.wraps.forEach(({ loop }, bar) => {
      const rgb = colours[Math.min(this.grid.yarn[loop], colours.length - 1)];
      for (let i = 0; i < this.bars.pointsPerBar; i++) wrapColour.array.set(rgb, 3 * (bar * this.bars.pointsPerBar + i));
    });
    wrapColour.needsUpdate = true;
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
