import type { YarnLay, YarnThread } from '../yarn/yarn-lay.ts';
import { type Bounds, boundsOf, glbHead, GLTF, METRES_PER_MM, turnUpright } from './glb-file.ts';
import { layTubes, listRuns, ringTriangles, TUBE_DETAILS, type TubeDetail, type TubeRun } from './yarn-tubes.ts';

export interface YarnGlbOptions {
  readonly detail: TubeDetail;
  /** What the sock is called. */
  readonly name: string;
  /** By grid.yarn: name, and linear red, green, blue, 0 to 1. */
  readonly yarns: readonly { readonly name: string; readonly colour: readonly [number, number, number] }[];
}

/** Bytes of a point: place and normal, three numbers of four bytes each. */
const POINT_BYTES = 24;

/** A file larger than this is warned of: many programs take long over it, or give up (chosen by eye). */
export const LARGE_GLB_BYTES = 100e6;

/** Larger than this none is written: readers hold a file in one piece, of 2 GB at most in many; the format itself ends at 4 GB (glTF 2.0, section 4.4.2). */
export const MOST_GLB_BYTES = 2 ** 31 - 1;

/** Bounds that stand for others of as many letters. */
const SOME_BOUNDS: Bounds = { min: [-0.12345678955316544, -0.12345678955316544, -0.12345678955316544], max: [0.12345678955316544, 0.12345678955316544, 0.12345678955316544] };

interface Layout {
  readonly runs: readonly TubeRun[];
  readonly sides: number;
  readonly pointBytes: number;
  readonly triangles: Uint16Array<ArrayBuffer>;
}

function layOut(thread: YarnThread, detail: TubeDetail): Layout {
  const runs = listRuns(thread, detail), { sides } = TUBE_DETAILS[detail];
  const pointBytes = runs.reduce((sum, { rings }) => sum + rings * sides * POINT_BYTES, 0), mostRings = runs.reduce((most, { rings }) => Math.max(most, rings), 2);
  return { runs, sides, pointBytes, triangles: ringTriangles(mostRings, sides) };
}

/** Bytes of the file, but for some letters in its bounds: within 1 in 1000. */
export function yarnGlbBytes(thread: YarnThread, options: YarnGlbOptions): number {
  const layout = layOut(thread, options.detail), numberBytes = layout.pointBytes + layout.triangles.byteLength;
  return glbHead(documentOf(layout, layout.runs.map(() => SOME_BOUNDS), options), numberBytes).length + numberBytes;
}

/**
 * All yarn as tubes in one binary glTF 2.0 file: metres, y up, a mesh for each yarn in its colour. Yields what comes
 * after the head, in order, and returns the head. All runs share one list of triangles, of which each takes as many as it needs.
 */
export function* writeYarnGlb(lay: YarnLay, options: YarnGlbOptions): Generator<Uint8Array<ArrayBuffer>, Uint8Array<ArrayBuffer>> {
  const layout = layOut(lay.thread, options.detail), bounds: Bounds[] = [];
  for (const { positions, normals } of layTubes(lay, options.detail)) {
    const places = turnUpright(positions, METRES_PER_MM);
    bounds.push(boundsOf(places));
    yield new Uint8Array(places.buffer);
    yield new Uint8Array(turnUpright(normals, 1).buffer);
  }
  yield new Uint8Array(layout.triangles.buffer);
  return glbHead(documentOf(layout, bounds, options), layout.pointBytes + layout.triangles.byteLength);
}

function documentOf({ runs, sides, pointBytes, triangles }: Layout, bounds: readonly Bounds[], { name, yarns }: YarnGlbOptions): object {
  const bufferViews: object[] = [], accessors: object[] = [], primitives = new Map<number, object[]>(), indices = new Map<number, number>();
  let offset = 0;
  const vectors = (count: number, range: Bounds | null): number => {
    const byteLength = 12 * count;
    bufferViews.push({ buffer: 0, byteOffset: offset, byteLength, target: GLTF.arrayBuffer });
    offset += byteLength;
    return accessors.push({ bufferView: bufferViews.length - 1, componentType: GLTF.float, count, type: 'VEC3', ...range }) - 1;
  };
  const trianglesOf = (rings: number): number => {
    const known = indices.get(rings);
    if (known !== undefined) return known;
    const made = accessors.push({ bufferView: 2 * runs.length, componentType: GLTF.unsignedShort, count: 6 * sides * (rings - 1), type: 'SCALAR' }) - 1;
    indices.set(rings, made);
    return made;
  };
  runs.forEach(({ yarn, rings }, i) => {
    const attributes = { POSITION: vectors(rings * sides, bounds[i]), NORMAL: vectors(rings * sides, null) }, own = primitives.get(yarn) ?? [];
    primitives.set(yarn, own);
    own.push({ attributes, indices: trianglesOf(rings), material: [...primitives.keys()].indexOf(yarn), mode: GLTF.triangles });
  });
  bufferViews.push({ buffer: 0, byteOffset: offset, byteLength: triangles.byteLength, target: GLTF.elementArrayBuffer });
  const used = [...primitives.keys()];
  return {
    asset: { version: '2.0', generator: 'Heelwright' },
    scene: 0, scenes: [{ nodes: [0] }],
    nodes: [{ name, children: used.map((_, i) => i + 1) }, ...used.map((yarn, mesh) => ({ mesh, name: yarns[yarn].name }))],
    meshes: used.map((yarn) => ({ name: yarns[yarn].name, primitives: primitives.get(yarn) })),
    materials: used.map((yarn) => ({ name: yarns[yarn].name, pbrMetallicRoughness: { baseColorFactor: [...yarns[yarn].colour, 1], metallicFactor: 0, roughnessFactor: 1 } })),
    accessors, bufferViews, buffers: [{ byteLength: pointBytes + triangles.byteLength }],
  };
}
