import { Group, type Ray } from 'three';
import type { Fabric } from '../fabric/fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { PoseName } from '../shape/pose.ts';
import { type ClothDetail, ClothMesh, type PickedVertex } from './cloth-mesh.ts';
import type { Scheme } from './colour.ts';
import type { DrawnFrame } from './drawn-frame.ts';
import type { Spot, Vector } from './frame-camera.ts';
import { GroundShadow } from './ground-shadow.ts';
import type { Around, ClothMap, FootLook, GrowthFrame, Lit } from './sock-view-types.ts';
import { Surroundings } from './surroundings.ts';

const NO_POINTS = new Float64Array(0);
/** A growing sock is framed with room down to the next of these depths, so that the camera need not follow every pass; chosen by eye. */
const REACH_STEP_MM = 60;

/** Thickness of cloth on either side of its middle that the cut runs through too, mm. */
const CUT_MARGIN_MM = 2.5;

/** One sock in the picture: its cloth, what holds it, its shadow, and where it stands. */
export class PlacedSock {
  readonly group = new Group();
  private readonly cloth = new ClothMesh();
  private readonly surroundings = new Surroundings();
  readonly shadow = new GroundShadow();
  private areaMm2 = 8;
  private fabric: Fabric | null = null;
  private hovered = -1;
  private isVeil = false;
  private footLook: FootLook = 'inside';
  private given: Float64Array = NO_POINTS;
  /** As they were given, or mirrored. */
  private positions: Float64Array = NO_POINTS;
  private isInsideOut = false;
  private cut: number | null = null;
  private pose: PoseName = 'flat';
  private around: Around | null = null;
  private growthReach: number | null = null;
  /** All that framing must keep in the picture, before the sock is put in its place: three entries each, mm. */
  points: Float64Array = NO_POINTS;

  constructor() {
    this.group.add(this.shadow.mesh, this.cloth.group, this.surroundings.group);
  }

  setFabric(fabric: Fabric, grid: StitchGrid, yarnColours: readonly string[], diametersMm?: readonly number[]): void {
    this.fabric = fabric;
    this.areaMm2 = fabric.courseMm * fabric.waleMm;
    this.cloth.setFabric(fabric, grid, yarnColours, diametersMm);
    this.hovered = -1;
  }

  hasFabric(fabric: Fabric): boolean { return this.fabric === fabric; }

  /** Three entries a vertex, mm. */
  setPositions(positions: Float64Array, pose: PoseName, around: Around | null): void {
    this.given = positions;
    this.pose = pose;
    this.around = around;
    this.lie();
  }

  /** What lies on the machine is never cut or turned. */
  private get isFree(): boolean { return this.pose !== 'beds' && this.growthReach === null; }

  setCut(share: number | null): void {
    this.cut = share;
    this.showCut();
  }

  setInsideOut(isInsideOut: boolean): void {
    if (isInsideOut === this.isInsideOut) return;
    this.isInsideOut = isInsideOut;
    if (this.given.length > 0) this.lie();
  }

  private lie(): void {
    const isTurned = this.isInsideOut && this.pose !== 'beds';
    this.positions = isTurned ? mirrored(this.given) : this.given;
    this.cloth.setPositions(this.positions, this.pose === 'flat');
    this.surroundings.setMirrored(isTurned);
    this.showTurned();
    if (this.growthReach === null) this.surround();
  }

  private showTurned(): void {
    this.cloth.setEverted(this.isTurned);
    this.showCut();
  }

  private showCut(): void {
    const { cut, positions } = this;
    if (cut === null || !this.isFree || positions.length === 0) {
      this.cloth.setCut(null);
      return;
    }
    let low = Infinity, high = -Infinity;
    for (let i = 1; i < positions.length; i += 3) {
      low = Math.min(low, positions[i]);
      high = Math.max(high, positions[i]);
    }
    this.cloth.setCut(low - CUT_MARGIN_MM + cut * (high - low + 2 * CUT_MARGIN_MM));
  }

  /** The sock as it grows, in place of the last positions; null brings them back. */
  setGrowth(frame: GrowthFrame | null): void {
    if (frame === null && this.growthReach === null) return;
    this.cloth.setGrowth(frame);
    this.hovered = -1;
    if (frame === null) {
      this.growthReach = null;
      this.showTurned();
      this.surround();
      return;
    }
    const castOnColour = frame.pass === 0 ? frame.yarnColours[frame.grid.yarn[0]] ?? null : null;
    this.surroundings.show({ holding: frame.holding, castOnColour, body: null }, frame.positions);
    this.shadow.castNothing();
    this.growthReach = REACH_STEP_MM * Math.ceil(-lowestOf(this.surroundings.corners) / REACH_STEP_MM);
    this.showTurned();
    this.cloth.setLook('solid');
    this.surroundings.setShown(true, false, false);
    this.points = deepened(this.surroundings.corners, -this.growthReach);
  }

  setLit(lit: Lit | null): void { this.cloth.setLit(lit); }

  private surround(): void {
    const { positions, pose } = this;
    this.surroundings.show(this.around, positions);
    if (pose === 'beds' || positions.length === 0) this.shadow.castNothing();
    else this.shadow.cast(positions, this.areaMm2, pose === 'flat');
    this.showLook();
  }

  setMap(map: ClothMap | null): void { this.cloth.setMap(map); }
  setYarnColours(yarnColours: readonly string[]): void { this.cloth.setYarnColours(yarnColours); }

  setDim(share: number): void {
    for (const part of [this.cloth, this.surroundings]) part.setDim(share);
  }

  setScheme(scheme: Scheme): void {
    for (const part of [this.cloth, this.surroundings, this.shadow]) part.setScheme(scheme);
  }

  get isVeiled(): boolean { return this.isVeil; }

  /** A veil over another sock casts no shadow and brings no foot of its own. */
  setIsVeil(isVeil: boolean): void {
    if (isVeil === this.isVeil) return;
    this.isVeil = isVeil;
    this.showLook();
  }

  setFootLook(look: FootLook): void {
    this.footLook = look;
    this.showLook();
  }

  /** Where a loop lies in the picture, and how; null for one that is not there. */
  spotOf(loop: number): Spot | null {
    const spot = this.cloth.spotOf(loop), { x, y, z } = this.group.position;
    return spot && { ...spot, place: [spot.place[0] + x, spot.place[1] + y, spot.place[2] + z], isOpen: this.cut !== null && this.isFree };
  }

  /** Whether it is shown inside out. */
  get isTurned(): boolean { return this.isInsideOut && this.isFree; }

  moveTo(place: Vector): void { this.group.position.set(...place); }

  /** Before each drawing. */
  prepare(frame: DrawnFrame): ClothDetail {
    this.shadow.face(frame.camera);
    if (this.isVeil) this.shadow.mesh.visible = false;
    return this.cloth.prepare(frame);
  }

  /** The vertex that a ray of the scene meets first. */
  pick({ origin, direction }: Ray): PickedVertex | null {
    return this.cloth.pick(origin.clone().sub(this.group.position).toArray(), direction.toArray());
  }

  /** Of the cloth in these sections alone, with the needles above it; all of `points` for null, or where there is no such cloth. */
  pointsIn(sections: ReadonlySet<number> | null): Float64Array {
    const { fabric, positions, surroundings } = this;
    if (sections === null || fabric === null || this.growthReach !== null || positions.length !== 3 * fabric.vertexCount) return this.points;
    const places: number[] = [];
    let lowest = Infinity;
    for (let v = 0; v < fabric.vertexCount; v++) {
      if (!sections.has(fabric.vertexSection[v])) continue;
      places.push(positions[3 * v], positions[3 * v + 1], positions[3 * v + 2]);
      lowest = Math.min(lowest, positions[3 * v + 2]);
    }
    if (places.length === 0) return this.points;
    const { corners } = surroundings;
    for (let i = 0; i < corners.length && !surroundings.hasBody; i += 3) if (corners[i + 2] > lowest) places.push(corners[i], corners[i + 1], corners[i + 2]);
    return Float64Array.from(places);
  }

  /** Lights a vertex's loop, none for -1; false if it is lit already. */
  light(vertex: number): boolean {
    if (vertex === this.hovered) return false;
    this.hovered = vertex;
    this.cloth.setHovered(vertex);
    return true;
  }

  /** Frees the GPU's part; a later drawing sends it again. */
  dispose(): void {
    for (const part of [this.cloth, this.surroundings, this.shadow]) part.dispose();
  }

  private showLook(): void {
    if (this.growthReach !== null) return;
    const isGlass = this.footLook === 'glass' && this.surroundings.hasBody;
    this.cloth.setLook(this.isVeil ? 'veil' : isGlass ? 'glass' : 'solid');
    this.surroundings.setShown(!this.isVeil, this.footLook !== 'hidden', this.footLook === 'glass');
    this.points = joined(this.positions, this.surroundings.corners);
  }
}

/** Places mirrored in y. */
function mirrored(points: Float64Array): Float64Array {
  return points.map((value, i) => (i % 3 === 1 ? -value : value));
}

function lowestOf(points: Float64Array): number {
  let low = 0;
  for (let i = 2; i < points.length; i += 3) low = Math.min(low, points[i]);
  return low;
}

/** The same points, the lowest of them lowered to a depth. */
function deepened(points: Float64Array, z: number): Float64Array {
  const low = lowestOf(points);
  return points.map((value, i) => (i % 3 === 2 && value === low ? z : value));
}

function joined(a: Float64Array, b: Float64Array): Float64Array {
  const both = new Float64Array(a.length + b.length);
  both.set(a);
  both.set(b, a.length);
  return both;
}
