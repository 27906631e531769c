import { Raycaster, Scene, Vector2, WebGLRenderer } from 'three';
import type { Fabric } from '../fabric/fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { PoseName } from '../shape/pose.ts';
import { Backdrop } from './backdrop.ts';
import { CameraRig } from './camera-rig.ts';
import type { ClothDetail } from './cloth-mesh.ts';
import { SCHEMES } from './colour.ts';
import { DrawingPace } from './drawing-pace.ts';
import { LineLabel } from './line-label.ts';
import { MeasureLine } from './measure-line.ts';
import { photograph } from './photograph.ts';
import { CAPTION_PIXELS, SockCaptions } from './sock-captions.ts';
import { type PickedSock, SockPair } from './sock-pair.ts';
import { isSoftware } from './software-renderer.ts';
import type {
  Around, Arrangement, ClothMap, Companion, DetailLevel, DrawnDetail, FootLook, Ground, GrowthFrame, HoveredLoop, Lit, PicturePart, SockView, Theme, ViewPreset,
} from './sock-view-types.ts';
import { listenToCanvas } from './view-input.ts';

/** Triangles that the yarn of all socks may take in a frame: 1.5 million (DESIGN.md, the picture) less what stands about it. */
const YARN_TRIANGLES = 1_300_000;

/** Keeps whole pixels whole when they are divided by a ratio and multiplied again, rounded or cut off. */
const SLACK = 0.25;

class KnitView implements SockView {
  private readonly canvas: HTMLCanvasElement;
  private readonly renderer: WebGLRenderer;
  private readonly scene = new Scene();
  private readonly backdrop = new Backdrop();
  private readonly pair: SockPair;
  private readonly line = new MeasureLine();
  private readonly label: LineLabel;
  private readonly captions: SockCaptions;
  private readonly rig: CameraRig;
  private readonly observer: ResizeObserver;
  private readonly stopListening: () => void;
  private readonly pace: DrawingPace;
  private readonly ray = new Raycaster();
  private free: readonly [number, number] | null = null;
  private theme: Theme;
  private frames = 0;
  /** While a picture is taken. */
  private takenRatio: number | null = null;
  private takenPart: PicturePart | null = null;
  private pending = 0;
  private drawn: DrawnDetail = { pixelsPerStitch: 0, level: 'mesh', triangles: 0, calls: 0, pieces: 0 };
  private isLost = false;
  private isDisposed = false;
  private pointer: { readonly x: number; readonly y: number } | null = null;
  private hoverCallback: (hovered: HoveredLoop | null) => void = () => undefined;
  private contextCallback: (state: 'lost' | 'restored') => void = () => undefined;
  private detailCallback: (level: DetailLevel) => void = () => undefined;

  constructor(canvas: HTMLCanvasElement, theme: Theme) {
    this.canvas = canvas;
    this.theme = theme;
    this.renderer = new WebGLRenderer({ canvas, antialias: true, alpha: false, powerPreference: 'high-performance' });
    this.pace = new DrawingPace(isSoftware(this.renderer), this.requestDraw);
    this.label = new LineLabel(canvas);
    this.captions = new SockCaptions(canvas);
    this.pair = new SockPair(this.captions, theme);
    this.scene.add(this.backdrop.mesh, this.pair.group);
    this.pair.first.group.add(this.line.group);
    this.rig = new CameraRig(canvas, this.onCamera);
    this.rig.setPoints((axes) => this.pair.pointsFor(axes));
    this.rig.setDepth((x, y) => this.depthAt(x, y));
    this.stopListening = listenToCanvas(canvas, this.rig, this.pointAt);
    canvas.style.touchAction = 'none';
    canvas.addEventListener('webglcontextlost', this.onLost);
    canvas.addEventListener('webglcontextrestored', this.onRestored);
    this.observer = new ResizeObserver(() => { this.resize(); });
    this.observer.observe(canvas);
    this.setTheme(theme);
    this.resize();
  }

  setFabric(fabric: Fabric, grid: StitchGrid, yarnColours: readonly string[], diametersMm?: readonly number[]): void {
    this.pair.first.setFabric(fabric, grid, yarnColours, diametersMm);
    this.requestDraw();
  }

  setPositions(positions: Float64Array, isFramed: boolean, pose: PoseName = this.pair.pose, around: Around | null = null): void {
    const { pair, rig } = this;
    pair.setPositions(positions, pose, around);
    rig.setPose(pair.isGrowing ? 'beds' : pose);
    if (isFramed && !pair.isGrowing) rig.frame(false);
    // Yarn is not laid for every shape on the way to rest.
    if (this.drawn.level === 'mesh') this.requestDraw();
    else this.move();
  }

  setMap(map: ClothMap | null): void {
    this.pair.setMap(map);
    this.requestDraw();
  }

  setCompanion(companion: Companion | null, arrangement: Arrangement): void {
    const isNew = this.pair.setCompanion(companion, arrangement);
    this.keepFreeOfCaptions();
    if (isNew) this.rig.frame(true);
    else this.rig.keepInView();
    this.requestDraw();
  }

  setFootLook(look: FootLook): void {
    if (!this.pair.setFootLook(look)) return;
    this.rig.keepInView();
    this.requestDraw();
  }

  setGrowth(frame: GrowthFrame | null): void {
    const { pair, rig } = this, isNew = pair.setGrowth(frame);
    rig.setPose(pair.isGrowing ? 'beds' : pair.pose);
    // The camera turns to a growth that has come or gone, unless it looks at the beds already.
    if (isNew && pair.pose !== 'beds') rig.frame(false);
    else rig.keepInView();
    this.move();
  }

  setLit(lit: Lit | null): void { this.pair.first.setLit(lit); this.requestDraw(); }

  setCut(share: number | null): void {
    this.pair.setCut(share === null ? null : Math.min(1, Math.max(0, share)));
    this.requestDraw();
  }

  setInsideOut(isInsideOut: boolean): void {
    this.pair.setInsideOut(isInsideOut);
    this.requestDraw();
  }

  approach(loop: number, pixelsPerStitch: number): void {
    const spot = this.pair.first.spotOf(loop);
    if (spot !== null) this.rig.approach(spot, pixelsPerStitch);
  }

  keepInView(): void { this.rig.keepInView(); }

  keepFree(topPixels: number, footPixels: number): void {
    this.free = [topPixels, footPixels];
    this.keepFreeOfCaptions();
  }

  setYarnColours(yarnColours: readonly string[]): void {
    this.pair.first.setYarnColours(yarnColours);
    this.requestDraw();
  }

  setDimmed(isDimmed: boolean): void {
    this.pair.setDimmed(isDimmed);
    this.requestDraw();
  }

  setTheme(theme: Theme): void {
    this.theme = theme;
    this.pair.setTheme(theme);
    for (const part of [this.backdrop, this.line, this.label, this.captions]) part.setScheme(SCHEMES[theme]);
    this.requestDraw();
  }

  showPreset(preset: ViewPreset): void { this.rig.show(preset, true); }
  reset(): void { this.rig.frame(true); }
  zoomBy(factor: number): void { this.rig.zoomBy(factor); }
  lookAt(sections: ReadonlySet<number> | null): void { this.pair.lookAt(sections); }
  orbitBy(azimuthRad: number, polarRad: number): void { this.rig.orbitBy(azimuthRad, polarRad); }

  showLine(points: Float64Array | null, label: string): void {
    this.line.show(points);
    this.label.setText(points ? label : '');
    this.requestDraw();
  }

  onHover(callback: (hovered: HoveredLoop | null) => void): void { this.hoverCallback = callback; }
  onContext(callback: (state: 'lost' | 'restored') => void): void { this.contextCallback = callback; }

  onDetail(callback: (level: DetailLevel) => void): void { this.detailCallback = callback; }
  detail(): DrawnDetail { return this.drawn; }

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

  private keepFreeOfCaptions(): void {
    if (this.free !== null) this.rig.keepFree(this.free[0], this.free[1] + (this.pair.hasSecond ? CAPTION_PIXELS : 0));
  }

  /** Frees what lies on the GPU; arrays, geometry and materials stay and are sent again when drawn. */
  private release(): void {
    for (const part of [...this.pair.all(), this.backdrop, this.line]) part.dispose();
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
    this.pace.begin(time);
    this.draw(time);
  };

  private draw(time: number): void {
    if (this.isLost || this.isDisposed) return;
    this.rig.advance(time);
    const { pair, renderer, line, rig: { camera } } = this, { right } = this.rig.axes();
    pair.place(right);
    line.group.scale.y = pair.first.isTurned ? -1 : 1;
    this.scene.updateMatrixWorld();
    camera.updateMatrixWorld();
    if (this.takenPart !== null) this.fitPart(this.takenPart);
    else if (renderer.getPixelRatio() !== this.pixelRatio()) renderer.setPixelRatio(this.pixelRatio());
    const details = this.prepare(time), { clientWidth, clientHeight } = this.canvas;
    line.setViewport(clientWidth, clientHeight, renderer.getPixelRatio(), camera.near);
    this.backdrop.takeShadow(pair.first.shadow, camera);
    renderer.render(this.scene, camera);
    this.label.place(line.middleInPicture(camera));
    pair.placeCaptions(camera, right);
    this.frames++;
    this.tell(details);
    if (details.some(({ isFading }) => isFading)) this.requestDraw();
  }

  /** Chooses what is drawn of each sock. */
  private prepare(time: number): readonly ClothDetail[] {
    const { pair, pace, rig: { camera }, canvas: { clientWidth: width, clientHeight: height }, takenRatio } = this, socks = pair.shown();
    // A part of a picture is drawn as fine as its pixels show it, however long that takes.
    const mostTriangles = this.takenPart === null ? YARN_TRIANGLES / socks.length : Infinity, isTaken = takenRatio !== null;
    const frame = {
      camera, width, height, ratio: this.renderer.getPixelRatio(), detailRatio: isTaken ? takenRatio : pace.detailRatio(),
      finest: isTaken ? Infinity : pace.finest(), isMoving: !isTaken && pace.isMoving, time, fade: pace.fade(), isTaken, mostTriangles, part: this.takenPart,
    };
    return socks.map((sock) => sock.prepare(frame));
  }

  private tell(details: readonly ClothDetail[]): void {
    const { triangles, calls } = this.renderer.info.render, before = this.drawn.level;
    const pieces = details.reduce((sum, detail) => sum + detail.pieces, 0), nearest = details.reduce((a, b) => (b.pixelsPerStitch > a.pixelsPerStitch ? b : a));
    this.drawn = { pixelsPerStitch: nearest.pixelsPerStitch * (this.takenRatio ?? 1), level: nearest.level, triangles, calls, pieces };
    if (nearest.level !== before && this.takenRatio === null) this.detailCallback(nearest.level);
  }

  /** Looks up the loop under the pointer with the next frame, or forgets it. */
  private readonly pointAt = (at: { x: number; y: number } | null): void => {
    if (!at) {
      if (this.pointer) this.hoverCallback(null);
      this.pointer = null;
      this.light(null);
      return;
    }
    this.pointer = at;
    this.pick(at);
  };

  private pick(at: { readonly x: number; readonly y: number }): void {
    const picked = this.pickAt(at.x, at.y);
    this.light(picked);
    this.hoverCallback(picked === null ? null : { sock: picked.sock, loop: picked.loop, clientX: at.x, clientY: at.y });
  }

  private pickAt(clientX: number, clientY: number): PickedSock | null {
    const box = this.canvas.getBoundingClientRect();
    const place = new Vector2((2 * (clientX - box.left)) / box.width - 1, 1 - (2 * (clientY - box.top)) / box.height);
    this.rig.camera.updateMatrixWorld();
    this.ray.setFromCamera(place, this.rig.camera);
    return this.pair.pick(this.ray.ray);
  }

  /** Distance before the camera of what lies there, mm; null for nothing. */
  private depthAt(clientX: number, clientY: number): number | null {
    const picked = this.pickAt(clientX, clientY);
    if (picked === null) return null;
    const { forward } = this.rig.axes(), { direction } = this.ray.ray;
    return picked.distance * (direction.x * forward[0] + direction.y * forward[1] + direction.z * forward[2]);
  }

  private light(picked: PickedSock | null): void {
    if (this.pair.light(picked)) this.requestDraw();
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
