import type { Fabric } from '../fabric/fabric.ts';
import type { GrowingFabric } from '../fabric/growing-fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';
import { vertexNormals } from '../yarn/vertex-normals.ts';
import { CELL_KINDS, fillHem } from './cloth-geometry.ts';
import { posePartInto } from './cloth-pose.ts';
import { LoadedCloth } from './loaded-cloth.ts';
import { poseWrapsInto, type WrapPlace } from './wrap-bars.ts';

/** A stretch of the index, and its place in CELL_KINDS. */
interface DrawnStretch { readonly start: number; readonly count: number; readonly kind: number }

/** A whole sock's cloth on the GPU, of which as much is drawn as exists after a pass: from pass to pass only places, the range of cells and the rolled edge change. */
export class GrowingCloth extends LoadedCloth {
  readonly growing: GrowingFabric;
  private readonly isTube: boolean;
  private stretches: readonly DrawnStretch[] = [];

  constructor(growing: GrowingFabric, grid: StitchGrid) {
    super(growing.fabric, grid, growing.mostRims);
    this.growing = growing;
    this.isTube = grid.ringPair.length > 0;
  }

  /** Three entries a vertex of those that exist, mm. Returns the part of the fabric that there is. */
  grow(pass: number, positions: Float64Array): Fabric {
    const { fabric, growing, cloth } = this, hem = fabric.cellVertices.length;
    const cells = growing.cellCounts[pass], drawn = fabric.cellStart[cells], edges = this.rimsAt(pass);
    const part: Fabric = {
      ...fabric, vertexCount: growing.vertexCounts[pass], cellStart: fabric.cellStart.subarray(0, cells + 1), edges: fabric.edges.subarray(0, 2 * growing.edgeCounts[pass]),
    };
    fillHem(cloth, hem, edges);
    this.gatherLooks(hem, hem + 2 * edges.length);
    const normals = vertexNormals(part, positions);
    posePartInto(this.posed, cloth, { fabric: part, drawn, hem, edges, isSheet: !this.isTube }, positions, normals);
    this.drawWraps(pass, part.vertexCount, positions, normals);
    for (const name of ['position', 'a_normal', 'a_hollow']) this.geometry.getAttribute(name).needsUpdate = true;
    this.stretches = this.stretchesOf(drawn, edges.length / 2);
    this.geometry.clearGroups();
    for (const { start, count, kind } of this.stretches) this.geometry.addGroup(start, count, kind);
    return part;
  }

  override drawnIndex(): Uint32Array {
    const index = new Uint32Array(this.stretches.reduce((sum, { count }) => sum + count, 0));
    let at = 0;
    for (const { start, count } of this.stretches) {
      index.set(this.cloth.index.subarray(start, start + count), at);
      at += count;
    }
    return index;
  }

  /** Edges with cloth on one side only: two vertices each. */
  private rimsAt(pass: number): number[] {
    const { rims, rimPasses } = this.growing, edges: number[] = [];
    for (let k = 0; k < rims.length; k += 2) if (rimPasses[k] <= pass && rimPasses[k + 1] > pass) edges.push(rims[k], rims[k + 1]);
    return edges;
  }

  /** Of each kind of cells those whose corners are among the first ones, and so many edges of the hem. */
  private stretchesOf(drawn: number, rims: number): DrawnStretch[] {
    const { index, kindStart } = this.cloth, special = CELL_KINDS.length - 1, hemStart = kindStart[special + 1] - 6 * this.growing.mostRims;
    const kinds = CELL_KINDS.map((_, kind) => {
      const start = kindStart[kind];
      let low = start / 3, high = (kind === special ? hemStart : kindStart[kind + 1]) / 3;
      while (low < high) {
        const middle = (low + high) >> 1;
        if (index[3 * middle] < drawn) low = middle + 1;
        else high = middle;
      }
      return { start, count: 3 * low - start, kind };
    });
    return [...kinds, { start: hemStart, count: 6 * rims, kind: special }];
  }

  private drawWraps(pass: number, vertexCount: number, positions: Float64Array, normals: Float64Array): void {
    const { grid, bars, wrapGeometry } = this, known = (v: number): number => (v < vertexCount ? v : -1);
    const laid = this.wraps.filter(({ loop }) => grid.pass[loop] <= pass).map((place): WrapPlace => ({
      ...place, child: known(place.child), left: known(place.left), right: known(place.right), before: known(place.before), after: known(place.after),
    }));
    poseWrapsInto(bars, laid, positions, normals, this.fabric.courseMm);
    wrapGeometry.setDrawRange(0, laid.length * bars.index.length / Math.max(1, this.wraps.length));
    for (const name of ['position', 'a_normal']) wrapGeometry.getAttribute(name).needsUpdate = true;
  }
}
