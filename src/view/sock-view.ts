import { Raycaster, Scene, Vector2, WebGLRenderer } from 'three';
import type { Fabric } from '../fabric/fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { PoseName } from '../shape/pose.ts';
import { Backdrop } from './backdrop.ts';
import { CameraRig } from './camera-rig.ts';
import { SCHEMES } from './colour.ts';
import type { Axes, Vector } from './frame-camera.ts';
import { DrawingPace } from './drawing-pace.ts';
import { LineLabel } from './line-label.ts';
import { MeasureLine } from './measure-line.ts';
import { photograph } from './photograph.ts';
import { type PairPlaces, placePair } from './pair-places.ts';
import { type PickedVertex, PlacedSock } from './placed-sock.ts';
import { CAPTION_PIXELS, SockCaptions } from './sock-captions.ts';
import type { Around, Arrangement, ClothMap, Companion, FootLook, Ground, GrowthFrame, HoveredLoop, Lit, PicturePart, SockView, Theme, ViewPreset } from './sock-view-types.ts';
import { listenToCanvas } from './view-input.ts';
import { pageWords } from '../words/page-words.ts';

/** Share of the backdrop in a dimmed sock. */
const DIM = 0.5;

/** Keeps whole pixels whole when they are divided by a ratio and multiplied again, rounded or cut off. */
const SLACK = 0.25;

/** Both socks where the first one is. */
const ONE_PLACE: PairPlaces = { first: [0, 0, 0], second: [0, 0, 0] };

class KnitView implements SockView {
  private readonly canvas: HTMLCanvasElement;
  private readonly renderer: WebGLRenderer;
  private readonly scene = new Scene();
  private readonly backdrop = new Backdrop();
  private readonly first = new PlacedSock();
  private readonly line = new MeasureLine();
  private readonly label: LineLabel;
  private readonly captions: SockCaptions;
  private readonly rig: CameraRig;
  private readonly observer: ResizeObserver;
  private readonly stopListening: () => void;
  private readonly pace: DrawingPace;
  private readonly ray = new Raycaster();
  private second: PlacedSock | null = null;
  private arrangement: Arrangement = 'beside';
  private hasMap = false;
  private companion: Companion | null = null;
  private free: readonly [number, number] | null = null;
  private footLook: FootLook = 'inside';
  private sections: ReadonlySet<number> | null = null;
  private theme: Theme;
  private dim = 0;
  private pose: PoseName = 'flat';
  private frames = 0;
  /** While a picture is taken. */
  private takenRatio: number | null = null;
  private takenPart: PicturePart | null = null;
  private pending = 0;
  private isGrowing = false;
  private isRough = false;
  private isLost = false;
  private isDisposed = false;
  private pointer: { readonly x: number; readonly y: number } | null = null;
  private hoverCallback: (hovered: HoveredLoop | null) => void = () => undefined;
  private contextCallback: (state: 'lost' | 'restored') => void = () => undefined;

  constructor(canvas: HTMLCanvasElement, theme: Theme) {
    this.canvas = canvas;
    this.theme = theme;
    this.renderer = new WebGLRenderer({ canvas, antialias: true, alpha: false, powerPreference: 'high-performance' });
    this.pace = new DrawingPace(this.renderer, this.requestDraw);
    this.scene.add(this.backdrop.mesh, this.first.group);
    this.first.group.add(this.line.group);
    this.rig = new CameraRig(canvas, this.onCamera);
    this.rig.setPoints((axes) => this.pointsFor(axes));
    this.label = new LineLabel(canvas);
    this.captions = new SockCaptions(canvas);
    this.stopListening = listenToCanvas(canvas, this.rig, this.pointAt);
    canvas.style.touchAction = 'none';
    canvas.addEventListener('webglcontextlost', this.onLost);
    canvas.addEventListener('webglcontextrestored', this.onRestored);
    this.observer = new ResizeObserver(() => { this.resize(); });
    this.observer.observe(canvas);
    this.setTheme(theme);
    this.resize();
  }

  setFabric(fabric: Fabric, grid: StitchGrid, yarnColours: readonly string[]): void {
    this.first.setFabric(fabric, grid, yarnColours);
    this.requestDraw();
  }

  setPositions(positions: Float64Array, isFramed: boolean, pose?: PoseName, around: Around | null = null): void {
    this.pose = pose ?? this.pose;
    if (this.second !== null) this.showVeil();
    this.first.setPositions(positions, this.pose, around);
    this.rig.setPose(this.isGrowing ? 'beds' : this.pose);
    if (isFramed && !this.isGrowing) this.rig.frame(false);
    this.requestDraw();
  }

  setMap(map: ClothMap | null): void {
    this.hasMap = map !== null;
    this.first.setMap(map);
    this.showVeil();
    this.requestDraw();
  }

  setCompanion(companion: Companion | null, arrangement: Arrangement): void {
    const before = this.second === null ? null : this.arrangement;
    this.arrangement = companion?.pose === 'beds' ? 'beside' : arrangement;
    if (companion === null) this.dropSecond();
    else this.showSecond(companion);
    this.companion = companion;
    this.showVeil();
    this.keepFreeOfCaptions();
    if (before !== (companion === null ? null : this.arrangement)) this.rig.frame(true);
    else this.rig.keepInView();
    this.requestDraw();
  }

  setFootLook(look: FootLook): void {
    if (look === this.footLook) return;
    this.footLook = look;
    for (const sock of this.socks()) sock.setFootLook(look);
    this.rig.keepInView();
    this.requestDraw();
  }

  setGrowth(frame: GrowthFrame | null): void {
    const isNew = (frame === null) === this.isGrowing;
    this.isGrowing = frame !== null;
    this.isRough = frame?.isRough === true;
    this.first.setGrowth(frame);
    if (isNew) this.showVeil();
    this.rig.setPose(this.isGrowing ? 'beds' : this.pose);
    this.applyDim();
    // The camera turns to a growth that has come or gone, unless it looks at the beds already.
    if (isNew && this.pose !== 'beds') this.rig.frame(false);
    else this.rig.keepInView();
    this.move();
  }

  /** A growing sock is no old shape that waits, but may be one that is only hung up. */
  private applyDim(): void {
    for (const sock of this.socks()) sock.setDim(this.isGrowing ? (this.isRough ? DIM : 0) : this.dim);
    this.requestDraw();
  }

  setLit(lit: Lit | null): void { this.first.setLit(lit); this.requestDraw(); }

  keepInView(): void { this.rig.keepInView(); }

  keepFree(topPixels: number, footPixels: number): void {
    this.free = [topPixels, footPixels];
    this.keepFreeOfCaptions();
  }

  setYarnColours(yarnColours: readonly string[]): void {
    this.first.setYarnColours(yarnColours);
    this.requestDraw();
  }

  setDimmed(isDimmed: boolean): void {
    this.dim = isDimmed ? DIM : 0;
    this.applyDim();
  }

  setTheme(theme: Theme): void {
    this.theme = theme;
    for (const part of [...this.socks(), this.backdrop, this.line, this.label, this.captions]) part.setScheme(SCHEMES[theme]);
    this.requestDraw();
  }

  showPreset(preset: ViewPreset): void { this.rig.show(preset, true); }
  reset(): void { this.rig.frame(true); }
  zoomBy(factor: number): void { this.rig.zoomBy(factor); }
  lookAt(sections: ReadonlySet<number> | null): void { this.sections = sections; }
  orbitBy(azimuthRad: number, polarRad: number): void { this.rig.orbitBy(azimuthRad, polarRad); }

  showLine(points: Float64Array | null, label: string): void {
    this.line.show(points);
    this.label.setText(points ? label : '');
    this.requestDraw();
  }

  onHover(callback: (hovered: HoveredLoop | null) => void): void { this.hoverCallback = callback; }
  onContext(callback: (state: 'lost' | 'restored') => void): void { this.contextCallback = callback; }

  resize(): void {
    const width = Math.max(1, this.canvas.clientWidth), height = Math.max(1, this.canvas.clientHeight);
    this.fit(width, height);
    this.rig.setAspect(width / height);
    // A resized canvas is blank until drawn: at once, so that no empty frame is seen.
    if (this.frames > 0) this.draw(performance.now());
    else this.requestDraw();
  }

  private fit(width: number, height: number): void {
    this.renderer.setPixelRatio(this.pixelRatio());
    this.renderer.setSize(width, height, false);
  }

  /** The drawing is as large as the part, and the whole picture's place lies about it: all that counts in shares or pixels of the picture stays as it is. */
  private fitPart({ left, top, width, height, wholeWidth, wholeHeight }: PicturePart): void {
    const { renderer } = this, ratio = this.pixelRatio(), whole = (pixels: number): number => (pixels + SLACK) / ratio;
    renderer.setDrawingBufferSize(whole(width), whole(height), ratio);
    renderer.setViewport(whole(-left), whole(top + height - wholeHeight), whole(wholeWidth), whole(wholeHeight));
  }

  takePicture(scale: number, ground: Ground): ImageData | null {
    if (this.isLost || this.isDisposed) return null;
    const { canvas, renderer } = this, most = renderer.capabilities.maxTextureSize;
    this.takenRatio = Math.min(scale, most / Math.max(1, canvas.clientWidth, canvas.clientHeight));
    const picture = this.shoot(ground);
    this.takenRatio = null;
    this.draw(performance.now());
    return picture;
  }

  takePart(part: PicturePart, ground: Ground): ImageData | null {
    if (this.isLost || this.isDisposed) return null;
    this.takenRatio = part.wholeWidth / Math.max(1, this.canvas.clientWidth);
    this.takenPart = part;
    const picture = this.shoot(ground);
    this.takenRatio = this.takenPart = null;
    this.fit(this.canvas.clientWidth, this.canvas.clientHeight);
    // Before the page is next seen; many parts may be taken until then.
    this.requestDraw();
    return picture;
  }

  mostPixels(): number {
    const gl = this.renderer.getContext();
    return Math.min(...(gl.getParameter(gl.MAX_VIEWPORT_DIMS) as Int32Array));
  }

  private shoot(ground: Ground): ImageData | null {
    const { canvas, renderer, backdrop: { mesh } } = this;
    return photograph({ canvas, renderer, backdrop: mesh, plain: SCHEMES[this.theme].backdropBottom, draw: () => { this.draw(performance.now()); } }, ground);
  }

  counters(): { readonly geometries: number; readonly textures: number; readonly programs: number; readonly frames: number } {
    const { memory, programs } = this.renderer.info;
    return { geometries: memory.geometries, textures: memory.textures, programs: programs?.length ?? 0, frames: this.frames };
  }

  dispose(): void {
    if (this.isDisposed) return;
    this.isDisposed = true;
    cancelAnimationFrame(this.pending);
    this.pace.dispose();
    this.observer.disconnect();
    this.stopListening();
    this.canvas.removeEventListener('webglcontextlost', this.onLost);
    this.canvas.removeEventListener('webglcontextrestored', this.onRestored);
    this.release();
    for (const part of [this.rig, this.label, this.captions, this.renderer]) part.dispose();
  }

  private socks(): readonly PlacedSock[] { return this.second === null ? [this.first] : [this.first, this.second]; }

  private showSecond(companion: Companion): void {
    const { fabric, grid, yarnColours, positions, pose, around = null, map = null } = companion;
    const sock = this.second ??= this.addSecond();
    if (sock.hasFabric(fabric)) sock.setYarnColours(yarnColours);
    else sock.setFabric(fabric, grid, yarnColours);
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
    this.scene.add(sock.group);
    return sock;
  }

  private dropSecond(): void {
    if (this.second === null) return;
    this.scene.remove(this.second.group);
    this.second.dispose();
    this.second = null;
  }

  /** The second sock, unless the first grows or has gone on to another pose and it has not. */
  private shownSecond(): PlacedSock | null { return this.companion?.pose === this.pose && !this.isGrowing ? this.second : null; }

  private placesFor(right: Vector): PairPlaces {
    const second = this.shownSecond();
    return second === null || this.arrangement === 'over' ? ONE_PLACE : placePair(this.first.points, second.points, right);
  }

  /** All points of all socks as they stand for a camera with these axes; beside each other both are framed whole, for their places are those of whole socks. */
  private pointsFor({ right }: Axes): Float64Array {
    const { first } = this, second = this.shownSecond();
    if (second === null) return first.pointsIn(this.sections);
    const sections = this.arrangement === 'over' ? this.sections : null, near = first.pointsIn(sections), other = second.pointsIn(sections), places = this.placesFor(right);
    return Float64Array.from([...near, ...other], (value, i) => value + (i < near.length ? places.first : places.second)[i % 3]);
  }

  private keepFreeOfCaptions(): void {
    if (this.free !== null) this.rig.keepFree(this.free[0], this.free[1] + (this.second === null ? 0 : CAPTION_PIXELS));
  }

  /** Frees what lies on the GPU; arrays, geometry and materials stay and are sent again when drawn. */
  private release(): void {
    for (const part of [...this.socks(), this.backdrop, this.line]) part.dispose();
  }

  private readonly requestDraw = (): void => {
    if (this.pending === 0 && !this.isLost && !this.isDisposed) this.pending = requestAnimationFrame(this.onFrame);
  };

  private pixelRatio(): number {
    return this.takenRatio ?? this.pace.ratio();
  }

  private readonly onCamera = (isMoving: boolean): void => {
    if (isMoving) this.move();
    else this.requestDraw();
  };

  /** The picture is in motion: camera or cloth. */
  private move(): void {
    this.pace.move();
    this.requestDraw();
  }

  private readonly onFrame = (time: number): void => {
    this.pending = 0;
    if (this.pointer) this.pick(this.pointer);
    this.draw(time);
  };

  private draw(time: number): void {
    if (this.isLost || this.isDisposed) return;
    this.rig.advance(time);
    const { first, rig: { camera } } = this, second = this.shownSecond();
    const places = this.placesFor(this.rig.axes().right);
    first.moveTo(places.first);
    second?.moveTo(places.second);
    this.scene.updateMatrixWorld();
    camera.updateMatrixWorld();
    if (this.takenPart !== null) this.fitPart(this.takenPart);
    else if (this.renderer.getPixelRatio() !== this.pixelRatio()) this.renderer.setPixelRatio(this.pixelRatio());
    const { clientWidth, clientHeight } = this.canvas, ratio = this.renderer.getPixelRatio();
    for (const sock of this.socks()) sock.prepare(camera, clientWidth, clientHeight, ratio);
    this.line.setViewport(clientWidth, clientHeight, ratio, camera.near);
    this.renderer.render(this.scene, camera);
    this.label.place(this.line.middleInPicture(camera));
    if (second !== null) {
      const isOver = this.arrangement === 'over', [near, other] = [first, second].map((sock) => sock.pointsIn(isOver ? this.sections : null));
      this.captions.place([{ points: near, place: places.first }, { points: other, place: places.second }], isOver, camera);
    }
    this.frames++;
  }

  /** Looks up the loop under the pointer with the next frame, or forgets it. */
  private readonly pointAt = (at: { x: number; y: number } | null): void => {
    if (!at) {
      if (this.pointer) this.hoverCallback(null);
      this.pointer = null;
      this.light(null, null);
      return;
    }
    this.pointer = at;
    this.pick(at);
  };

  private pick(at: { readonly x: number; readonly y: number }): void {
    const box = this.canvas.getBoundingClientRect();
    const place = new Vector2((2 * (at.x - box.left)) / box.width - 1, 1 - (2 * (at.y - box.top)) / box.height);
    this.rig.camera.updateMatrixWorld();
    this.ray.setFromCamera(place, this.rig.camera);
    const first = this.first.pick(this.ray.ray), second = this.shownSecond()?.pick(this.ray.ray) ?? null;
    const isSecond = second !== null && (first === null || this.isSecondNearer(first, second));
    this.light(isSecond ? null : first, isSecond ? second : null);
    const picked = isSecond ? second : first;
    this.hoverCallback(picked === null ? null : { sock: isSecond ? 'second' : 'first', loop: picked.loop, clientX: at.x, clientY: at.y });
  }

  /** A veil is pointed at only where it stands out beyond the other. */
  private isSecondNearer(first: PickedVertex, second: PickedVertex): boolean {
    return this.arrangement === 'over' ? this.first.isVeiled : second.distance < first.distance;
  }

  private light(first: PickedVertex | null, second: PickedVertex | null): void {
    const isFirstNew = this.first.light(first?.vertex ?? -1), isSecondNew = this.second?.light(second?.vertex ?? -1) ?? false;
    if (isFirstNew || isSecondNew) this.requestDraw();
  }

  /**
   * Preventing the default lets the browser give the context back. What lay on the GPU is let go
   * at once, so that the next drawing fills the new context from the arrays kept here.
   */
  private readonly onLost = (event: Event): void => {
    event.preventDefault();
    this.isLost = true;
    cancelAnimationFrame(this.pending);
    this.pending = 0;
    this.release();
    this.contextCallback('lost');
  };

  private readonly onRestored = (): void => {
    this.isLost = false;
    this.resize();
    this.contextCallback('restored');
  };
}

/** The picture of a sock on a canvas. Throws where the browser has no WebGL 2. */
export function createSockView(canvas: HTMLCanvasElement, theme: Theme): SockView {
  return new KnitView(canvas, theme);
}
