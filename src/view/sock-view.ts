import { Raycaster, Scene, Vector2, WebGLRenderer } from 'three';
import type { Fabric } from '../fabric/fabric.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { PoseName } from '../shape/pose.ts';
import { CameraRig } from './camera-rig.ts';
import { ClothMesh } from './cloth-mesh.ts';
import { SCHEMES } from './colour.ts';
import { LineLabel } from './line-label.ts';
import { MeasureLine } from './measure-line.ts';
import { castRay, nearestVertex } from './pick-loop.ts';
import type { Around, ClothLayer, HoveredLoop, SockView, Theme, VertexStretch, ViewPreset } from './sock-view-types.ts';
import { Stage } from './stage.ts';
import { Surroundings } from './surroundings.ts';
import { listenToCanvas } from './view-input.ts';

/** Share of the backdrop in a dimmed sock. */
const DIM = 0.5;
/** Without a graphics card a moving picture is drawn coarser, and in full once it has rested for so long. */
const COARSE_RATIO = 0.5, REST_MS = 160;

/** Whether the picture is computed without a graphics card. */
function isSoftware(renderer: WebGLRenderer): boolean {
  const gl = renderer.getContext();
  const info = gl.getExtension('WEBGL_debug_renderer_info');
  const name: unknown = gl.getParameter(info ? info.UNMASKED_RENDERER_WEBGL : gl.RENDERER);
  return /swiftshader|llvmpipe|software|basic render/i.test(String(name));
}

class KnitView implements SockView {
  private readonly canvas: HTMLCanvasElement;
  private readonly renderer: WebGLRenderer;
  private readonly scene = new Scene();
  private readonly cloth = new ClothMesh();
  private readonly stage = new Stage();
  private readonly surroundings = new Surroundings();
  private readonly line = new MeasureLine();
  private readonly label: LineLabel;
  private readonly rig: CameraRig;
  private readonly observer: ResizeObserver;
  private readonly stopListening: () => void;
  private readonly isSoftware: boolean;
  private readonly ray = new Raycaster();
  private areaMm2 = 8;
  private pose: PoseName = 'flat';
  private frames = 0;
  private pending = 0;
  private restTimer = 0;
  private isMoving = false;
  private isLost = false;
  private isDisposed = false;
  private pointer: { readonly x: number; readonly y: number } | null = null;
  private hovered = -1;
  private hoverCallback: (hovered: HoveredLoop | null) => void = () => undefined;
  private contextCallback: (state: 'lost' | 'restored') => void = () => undefined;

  constructor(canvas: HTMLCanvasElement, theme: Theme) {
    this.canvas = canvas;
    this.renderer = new WebGLRenderer({ canvas, antialias: true, alpha: false, powerPreference: 'high-performance' });
    this.isSoftware = isSoftware(this.renderer);
    this.scene.add(this.stage.backdrop, this.stage.shadow, this.cloth.group, this.surroundings.group, this.line.group);
    this.rig = new CameraRig(canvas, this.onCamera);
    this.label = new LineLabel(canvas);
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
    this.areaMm2 = fabric.courseMm * fabric.waleMm;
    this.cloth.setFabric(fabric, grid, yarnColours);
    this.light(-1);
  }

  setPositions(positions: Float64Array, isFramed: boolean, pose?: PoseName, around: Around | null = null): void {
    this.pose = pose ?? this.pose;
    this.surroundings.show(around, positions);
    this.cloth.setPositions(positions);
    if (this.pose === 'beds') this.stage.castNothing();
    else this.stage.cast(positions, this.areaMm2, this.pose === 'flat');
    this.rig.setPoints(joined(positions, this.surroundings.corners));
    this.rig.setIsMachine(this.pose === 'beds');
    if (isFramed) this.rig.frame(false);
    this.requestDraw();
  }

  setStretch(stretch: VertexStretch): void {
    this.cloth.setStretch(stretch);
    this.requestDraw();
  }

  setLayer(layer: ClothLayer): void {
    if (!this.cloth.setLayer(layer)) return;
    this.requestDraw();
  }

  keepInView(): void { this.rig.keepInView(); }
  keepFree(topPixels: number, footPixels: number): void { this.rig.keepFree(topPixels, footPixels); }

  setYarnColours(yarnColours: readonly string[]): void {
    this.cloth.setYarnColours(yarnColours);
    this.requestDraw();
  }

  setDimmed(isDimmed: boolean): void {
    for (const part of [this.cloth, this.surroundings]) part.setDim(isDimmed ? DIM : 0);
    this.requestDraw();
  }

  setTheme(theme: Theme): void {
    const scheme = SCHEMES[theme];
    for (const part of [this.cloth, this.surroundings, this.stage, this.line, this.label]) part.setScheme(scheme);
    this.requestDraw();
  }

  showPreset(preset: ViewPreset): void { this.rig.show(preset, true); }
  reset(): void { this.rig.frame(true); }
  zoomBy(factor: number): void { this.rig.zoomBy(factor); }
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
    this.renderer.setPixelRatio(this.pixelRatio());
    this.renderer.setSize(width, height, false);
    this.rig.setAspect(width / height);
    // A resized canvas is blank until drawn: at once, so that no empty frame is seen.
    if (this.frames > 0) this.draw(performance.now());
    else this.requestDraw();
  }

  counters(): { readonly geometries: number; readonly textures: number; readonly programs: number; readonly frames: number } {
    const { memory, programs } = this.renderer.info;
    return { geometries: memory.geometries, textures: memory.textures, programs: programs?.length ?? 0, frames: this.frames };
  }

  dispose(): void {
    if (this.isDisposed) return;
    this.isDisposed = true;
    cancelAnimationFrame(this.pending);
    clearTimeout(this.restTimer);
    this.observer.disconnect();
    this.stopListening();
    this.canvas.removeEventListener('webglcontextlost', this.onLost);
    this.canvas.removeEventListener('webglcontextrestored', this.onRestored);
    this.release();
    for (const part of [this.rig, this.label, this.renderer]) part.dispose();
  }

  /** Frees what lies on the GPU; arrays, geometry and materials stay and are sent again when drawn. */
  private release(): void {
    for (const part of [this.cloth, this.surroundings, this.stage, this.line]) part.dispose();
  }

  private readonly requestDraw = (): void => {
    if (this.pending === 0 && !this.isLost && !this.isDisposed) this.pending = requestAnimationFrame(this.onFrame);
  };

  private pixelRatio(): number {
    if (!this.isSoftware) return Math.min(window.devicePixelRatio, 2);
    return this.isMoving ? COARSE_RATIO : 1;
  }

  private readonly onCamera = (isMoving: boolean): void => {
    if (isMoving && this.isSoftware) {
      this.isMoving = true;
      clearTimeout(this.restTimer);
      this.restTimer = window.setTimeout(this.onRest, REST_MS);
    }
    this.requestDraw();
  };

  private readonly onRest = (): void => {
    this.isMoving = false;
    this.requestDraw();
  };

  private readonly onFrame = (time: number): void => {
    this.pending = 0;
    if (this.pointer) this.pick(this.pointer);
    this.draw(time);
  };

  private draw(time: number): void {
    if (this.isLost || this.isDisposed) return;
    this.rig.advance(time);
    this.stage.face(this.rig.camera);
    if (this.renderer.getPixelRatio() !== this.pixelRatio()) this.renderer.setPixelRatio(this.pixelRatio());
    const { clientWidth, clientHeight } = this.canvas;
    this.line.setViewport(clientWidth, clientHeight, this.renderer.getPixelRatio(), this.rig.camera.near);
    this.renderer.render(this.scene, this.rig.camera);
    this.label.place(this.line.middleInPicture(this.rig.camera));
    this.frames++;
  }

  /** Looks up the loop under the pointer with the next frame, or forgets it. */
  private readonly pointAt = (at: { x: number; y: number } | null): void => {
    if (!at) {
      if (this.pointer) this.hoverCallback(null);
      this.pointer = null;
      this.light(-1);
      return;
    }
    this.pointer = at;
    this.pick(at);
  };

  private pick(at: { readonly x: number; readonly y: number }): void {
    const target = this.cloth.pickable();
    if (!target) return;
    const box = this.canvas.getBoundingClientRect();
    const place = new Vector2((2 * (at.x - box.left)) / box.width - 1, 1 - (2 * (at.y - box.top)) / box.height);
    this.rig.camera.updateMatrixWorld();
    this.ray.setFromCamera(place, this.rig.camera);
    const hit = castRay(target.picker, this.ray.ray.origin.toArray(), this.ray.ray.direction.toArray());
    const vertex = hit ? nearestVertex(target.cloth, hit) : -1;
    this.light(vertex);
    this.hoverCallback(vertex < 0 ? null : { loop: target.fabric.vertexLoop[vertex], clientX: at.x, clientY: at.y });
  }

  private light(vertex: number): void {
    if (vertex === this.hovered) return;
    this.hovered = vertex;
    this.cloth.setHovered(vertex);
    this.requestDraw();
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

function joined(a: Float64Array, b: Float64Array): Float64Array {
  const both = new Float64Array(a.length + b.length);
  both.set(a);
  both.set(b, a.length);
  return both;
}

/** The picture of a sock on a canvas. Throws where the browser has no WebGL 2. */
export function createSockView(canvas: HTMLCanvasElement, theme: Theme): SockView {
  return new KnitView(canvas, theme);
}
