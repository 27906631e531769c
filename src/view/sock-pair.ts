import { Group, type PerspectiveCamera, type Ray } from 'three';
import { pageWords } from '../words/page-words.ts';
import type { PoseName } from '../shape/pose.ts';
import { SCHEMES } from './colour.ts';
import type { Axes, Vector } from './frame-camera.ts';
import { type PairPlaces, placePair } from './pair-places.ts';
import type { PickedVertex } from './cloth-mesh.ts';
import { PlacedSock } from './placed-sock.ts';
import type { SockCaptions } from './sock-captions.ts';
import type { Around, Arrangement, ClothMap, Companion, FootLook, GrowthFrame, Theme } from './sock-view-types.ts';

/** Share of the backdrop in a dimmed sock. */
const DIM = 0.5;

/** Both socks where the first one is. */
const ONE_PLACE: PairPlaces = { first: [0, 0, 0], second: [0, 0, 0] };

/** What a ray meets first. */
export interface PickedSock extends PickedVertex { readonly sock: 'first' | 'second' }

/** The sock of the picture, and the second one while there is one. */
export class SockPair {
  readonly group = new Group();
  readonly first = new PlacedSock();
  private second: PlacedSock | null = null;
  private readonly captions: SockCaptions;
  private arrangement: Arrangement = 'beside';
  private companion: Companion | null = null;
  private hasMap = false;
  private sections: ReadonlySet<number> | null = null;
  private footLook: FootLook = 'inside';
  private theme: Theme;
  private dim = 0;
  private cut: number | null = null;
  private isInsideOut = false;
  private isRough = false;
  isGrowing = false;
  pose: PoseName = 'flat';

  constructor(captions: SockCaptions, theme: Theme) {
    this.captions = captions;
    this.theme = theme;
    this.group.add(this.first.group);
  }

  all(): readonly PlacedSock[] { return this.second === null ? [this.first] : [this.first, this.second]; }

  get hasSecond(): boolean { return this.second !== null; }

  setPositions(positions: Float64Array, pose: PoseName, around: Around | null): void {
    this.pose = pose;
    if (this.second !== null) this.showVeil();
    this.first.setPositions(positions, pose, around);
  }

  setMap(map: ClothMap | null): void {
    this.hasMap = map !== null;
    this.first.setMap(map);
    this.showVeil();
  }

  /** Whether there is a second sock now where there was none, or the other way, or it lies elsewhere. */
  setCompanion(companion: Companion | null, arrangement: Arrangement): boolean {
    const before = this.second === null ? null : this.arrangement;
    this.arrangement = companion?.pose === 'beds' ? 'beside' : arrangement;
    if (companion === null) this.dropSecond();
    else this.showSecond(companion);
    this.companion = companion;
    this.showVeil();
    return before !== (companion === null ? null : this.arrangement);
  }

  setFootLook(look: FootLook): boolean {
    if (look === this.footLook) return false;
    this.footLook = look;
    for (const sock of this.all()) sock.setFootLook(look);
    return true;
  }

  /** Whether a growth has come or gone. */
  setGrowth(frame: GrowthFrame | null): boolean {
    const isNew = (frame === null) === this.isGrowing;
    this.isGrowing = frame !== null;
    this.isRough = frame?.isRough === true;
    this.first.setGrowth(frame);
    if (isNew) this.showVeil();
    this.applyDim();
    return isNew;
  }

  setDimmed(isDimmed: boolean): void {
    this.dim = isDimmed ? DIM : 0;
    this.applyDim();
  }

  setTheme(theme: Theme): void {
    this.theme = theme;
    for (const sock of this.all()) sock.setScheme(SCHEMES[theme]);
  }

  setCut(share: number | null): void {
    this.cut = share;
    for (const sock of this.all()) sock.setCut(share);
  }

  setInsideOut(isInsideOut: boolean): void {
    this.isInsideOut = isInsideOut;
    for (const sock of this.all()) sock.setInsideOut(isInsideOut);
  }

  lookAt(sections: ReadonlySet<number> | null): void { this.sections = sections; }

  /** The second sock, unless the first grows or has gone on to another pose and it has not. */
  shownSecond(): PlacedSock | null { return this.companion?.pose === this.pose && !this.isGrowing ? this.second : null; }

  shown(): readonly PlacedSock[] {
    const second = this.shownSecond();
    return second === null ? [this.first] : [this.first, second];
  }

  /** All points of all socks as they stand for a camera with these axes; beside each other both are framed whole, for their places are those of whole socks. */
  pointsFor({ right }: Axes): Float64Array {
    const { first } = this, second = this.shownSecond();
    if (second === null) return first.pointsIn(this.sections);
    const sections = this.arrangement === 'over' ? this.sections : null, near = first.pointsIn(sections), other = second.pointsIn(sections), places = this.placesFor(right);
    return Float64Array.from([...near, ...other], (value, i) => value + (i < near.length ? places.first : places.second)[i % 3]);
  }

  /** Puts both where they stand for a camera with this right. */
  place(right: Vector): void {
    const places = this.placesFor(right);
    this.first.moveTo(places.first);
    this.shownSecond()?.moveTo(places.second);
  }

  placeCaptions(camera: PerspectiveCamera, right: Vector): void {
    const second = this.shownSecond();
    if (second === null) return;
    const isOver = this.arrangement === 'over', [near, other] = [this.first, second].map((sock) => sock.pointsIn(isOver ? this.sections : null)), places = this.placesFor(right);
    this.captions.place([{ points: near, place: places.first }, { points: other, place: places.second }], isOver, camera);
  }

  /** What a ray of the scene meets first; a veil is pointed at only where it stands out beyond the other. */
  pick(ray: Ray): PickedSock | null {
    const first = this.first.pick(ray), second = this.shownSecond()?.pick(ray) ?? null;
    const isSecond = second !== null && (first === null || (this.arrangement === 'over' ? this.first.isVeiled : second.distance < first.distance));
    if (isSecond) return { ...second, sock: 'second' };
    return first && { ...first, sock: 'first' };
  }

  /** Lights the loop that was picked, and no other; false if it is lit already. */
  light(picked: PickedSock | null): boolean {
    const of = (sock: 'first' | 'second'): number => (picked?.sock === sock ? picked.vertex : -1);
    const isFirstNew = this.first.light(of('first')), isSecondNew = this.second?.light(of('second')) ?? false;
    return isFirstNew || isSecondNew;
  }

  private placesFor(right: Vector): PairPlaces {
    const second = this.shownSecond();
    return second === null || this.arrangement === 'over' ? ONE_PLACE : placePair(this.first.points, second.points, right);
  }

  /** A growing sock is no old shape that waits, but may be one that is only hung up. */
  private applyDim(): void {
    for (const sock of this.all()) sock.setDim(this.isGrowing ? (this.isRough ? DIM : 0) : this.dim);
  }

  private showSecond(companion: Companion): void {
    const { fabric, grid, yarnColours, diametersMm, positions, pose, around = null, map = null } = companion;
    const sock = this.second ??= this.addSecond();
    if (sock.hasFabric(fabric)) sock.setYarnColours(yarnColours);
    else sock.setFabric(fabric, grid, yarnColours, diametersMm);
    sock.setPositions(positions, pose, around);
    sock.setMap(map);
  }

  /** Of two socks over each other one is a veil: the second, unless the first has no map and the second has one. */
  private showVeil(): void {
    const { first, second } = this, companion = this.shownSecond() === null ? null : this.companion, isOver = companion !== null && this.arrangement === 'over';
    if (second !== null) second.group.visible = companion !== null;
    const isFirst = isOver && companion.map != null && !this.hasMap;
    first.setIsVeil(isFirst);
    second?.setIsVeil(isOver && !isFirst);
    this.captions.show(companion === null ? null : [companion.firstLabel ?? pageWords().compare.thisSock, companion.label], isOver ? (isFirst ? 0 : 1) : -1);
  }

  private addSecond(): PlacedSock {
    const sock = new PlacedSock();
    sock.setScheme(SCHEMES[this.theme]);
    sock.setFootLook(this.footLook);
    sock.setDim(this.dim);
    sock.setCut(this.cut);
    sock.setInsideOut(this.isInsideOut);
    this.group.add(sock.group);
    return sock;
  }

  private dropSecond(): void {
    if (this.second === null) return;
    this.group.remove(this.second.group);
    this.second.dispose();
    this.second = null;
  }
}
