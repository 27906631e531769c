import { MathUtils, PerspectiveCamera, Vector3 } from 'three';
import { OrbitControls } from 'three/addons/controls/OrbitControls.js';
import { type Axes, axesOf, type Bearing, frameFor, MACHINE_PRESETS, PRESETS, type Spot, type Vector } from './frame-camera.ts';
import type { PoseName } from '../shape/pose.ts';
import type { ViewPreset } from './sock-view-types.ts';

/** A long lens: less distortion than the eye at arm's length, still some depth. */
const FIELD_OF_VIEW_DEG = 22;
const TAN_HALF_FIELD = Math.tan(MathUtils.degToRad(FIELD_OF_VIEW_DEG / 2));
/** Share of the picture that a framed sock may fill. */
const FILL = 0.88;
/** Height of one row of buttons over the picture and of one under it, until they are measured; the least share of a half of it that is left to the sock. */
const TOP_PIXELS = 54, FOOT_PIXELS = 50, LEAST_SHARE = 0.2;
/** How far a look goes against the plane of a sock that lies flat, 0 to 1, below which it is seen edge on. */
const EDGE_ON = 0.2;
const MOTION_MS = 340;
/** As near as one comes to what one looks at: a stitch is then larger than the picture. Nothing is drawn that is nearer than a share of that distance. */
const NEAREST_MM = 7, NEAR_SHARE = 0.03, LEAST_NEAR_MM = 0.2;
/** A sock that has grown may reach this far beyond its frame, and one that has shrunk leave so much of its distance unused, before it is framed anew; chosen by eye. */
const OUT_OF_FRAME = 1.02, TOO_FAR = 1.25;
const NO_POINTS = new Float64Array(0);
const STEEPEST = MathUtils.degToRad(89.9);

interface Stand { readonly bearing: Bearing; readonly distance: number; readonly target: Vector3 }
interface Motion { readonly from: Stand; readonly to: Stand; start: number }

function ease(t: number): number { return t * t * (3 - 2 * t); }

/** The camera, its pointer and touch controls, its presets and short motions. Axes as in shape/pose.ts, z up. */
export class CameraRig {
  readonly camera = new PerspectiveCamera(FIELD_OF_VIEW_DEG, 1, 1, 5000);
  private readonly controls: OrbitControls;
  private readonly requestDraw: (isMoving: boolean) => void;
  private preset: ViewPreset = 'side';
  private pointsFor: (axes: Axes) => Float64Array = () => NO_POINTS;
  private motion: Motion | null = null;
  private isOwnMove = false;
  private isMovedByPerson = false;
  private topPixels = TOP_PIXELS;
  private footPixels = FOOT_PIXELS;
  private pose: PoseName = 'flat';
  private depthAt: (clientX: number, clientY: number) => number | null = () => null;

  /** `requestDraw` is told whether the picture is in motion. */
  constructor(canvas: HTMLCanvasElement, requestDraw: (isMoving: boolean) => void) {
    this.requestDraw = requestDraw;
    this.camera.up.set(0, 0, 1);
    this.camera.position.set(0, -900, 0);
    this.controls = new OrbitControls(this.camera, canvas);
    this.controls.enableDamping = true;
    this.controls.dampingFactor = 0.14;
    this.controls.rotateSpeed = 0.85;
    this.controls.zoomToCursor = true;
    this.controls.minDistance = NEAREST_MM;
    canvas.addEventListener('wheel', this.onWheel, { capture: true, passive: true });
    this.controls.addEventListener('change', this.onChange);
    this.controls.addEventListener('start', this.onStart);
  }

  /** Points that framing must keep in the picture, as they stand for a camera with given axes: three entries each, mm. */
  setPoints(pointsFor: (axes: Axes) => Float64Array): void { this.pointsFor = pointsFor; }

  /** Tells how far before the camera the cloth is under a point of the window; null where there is none. */
  setDepth(depthAt: (clientX: number, clientY: number) => number | null): void { this.depthAt = depthAt; }

  /** Of the camera as it stands. */
  axes(): Axes { return axesOf(this.present().bearing); }

  setAspect(aspect: number): void {
    this.camera.aspect = aspect;
    this.camera.updateProjectionMatrix();
    if (!this.isMovedByPerson) this.frame(false);
  }

  /** Moves to the preset, framed. */
  show(preset: ViewPreset, isAnimated: boolean): void {
    this.preset = preset;
    this.frame(isAnimated);
  }

  /** The present preset again, framed. */
  frame(isAnimated: boolean): void {
    this.isMovedByPerson = false;
    this.motion = null;
    const to = this.framing();
    if (to === null) return;
    this.controls.maxDistance = 6 * to.distance;
    this.moveTo(to, isAnimated);
  }

  private moveTo(to: Stand, isAnimated: boolean): void {
    const isStill = !isAnimated || window.matchMedia('(prefers-reduced-motion: reduce)').matches;
    this.motion = isStill ? null : { from: this.present(), to, start: -1 };
    if (isStill) this.stand(to);
    this.requestDraw(!isStill);
  }

  /** Where the camera would stand for the present preset; null while there is nothing to see. */
  private framing(): Stand | null {
    const bearing = (this.isMachine ? MACHINE_PRESETS : PRESETS)[this.preset], axes = axesOf(bearing), points = this.pointsFor(axes);
    if (points.length === 0) return null;
    const tanY = TAN_HALF_FIELD * FILL;
    const { target, distance } = frameFor(points, axes, tanY * this.camera.aspect, tanY * this.shareOf(this.footPixels), tanY * this.shareOf(this.topPixels), this.isMachine);
    return { bearing, distance, target: new Vector3(...target) };
  }

  /** Keeps so many pixels at the picture's top and foot free of a framed sock; a person's own view is left to her. */
  keepFree(topPixels: number, footPixels: number): void {
    if (topPixels === this.topPixels && footPixels === this.footPixels) return;
    this.topPixels = topPixels;
    this.footPixels = footPixels;
    if (!this.isMovedByPerson) this.frame(true);
  }

  /** What is looked at from now on: a machine, first from its front, or a sock, first from its side; a sock that comes to lie flat is not left to be seen edge on. */
  setPose(pose: PoseName): void {
    if (pose === this.pose) return;
    const wasMachine = this.isMachine;
    this.pose = pose;
    if (this.isMachine !== wasMachine) this.preset = this.isMachine ? 'front' : 'side';
    else if (pose === 'flat' && Math.abs(axesOf(PRESETS[this.preset]).forward[1]) < EDGE_ON) this.preset = 'side';
  }

  private get isMachine(): boolean { return this.pose === 'beds'; }

  /** Frames anew if the sock runs out of its frame, or has shrunk far into it; a person's own view is left to her. */
  keepInView(): void {
    if (!this.isMovedByPerson && this.motion === null && (!this.hasAllInView() || this.isFarOff())) this.frame(true);
  }

  private isFarOff(): boolean {
    const framed = this.framing();
    return framed !== null && this.present().distance > TOO_FAR * framed.distance;
  }

  private hasAllInView(): boolean {
    const axes = this.axes(), points = this.pointsFor(axes), { right, up, forward } = axes, { x, y, z } = this.camera.position;
    // To the sides it may run up to the picture's edge; above and below it lies behind buttons sooner.
    const tanUp = TAN_HALF_FIELD * FILL * OUT_OF_FRAME, tanX = TAN_HALF_FIELD * this.camera.aspect;
    const down = this.shareOf(this.footPixels), high = this.shareOf(this.topPixels);
    for (let i = 0; i < points.length; i += 3) {
      const p = [points[i] - x, points[i + 1] - y, points[i + 2] - z];
      const along = (axis: Vector): number => p[0] * axis[0] + p[1] * axis[1] + p[2] * axis[2];
      const depth = along(forward);
      if (Math.abs(along(right)) > tanX * depth || -along(up) > tanUp * down * depth || along(up) > tanUp * high * depth) return false;
    }
    return true;
  }

  /** How much of a half of a framed picture is left to the sock by what covers so many pixels at its edge, over what a free half gives it. */
  private shareOf(pixels: number): number {
    const height = Math.max(1, this.controls.domElement?.clientHeight ?? 1);
    return MathUtils.clamp((1 - (2 * pixels) / height) / FILL, LEAST_SHARE, 1);
  }

  zoomBy(factor: number): void {
    const box = this.controls.domElement?.getBoundingClientRect();
    if (box !== undefined) this.lookAtCloth((box.left + box.right) / 2, (box.top + box.bottom) / 2);
    const now = this.present();
    const distance = MathUtils.clamp(now.distance / factor, this.controls.minDistance, this.controls.maxDistance);
    this.moveByPerson({ ...now, distance });
  }

  /** Stands square before a place, a stitch so many pixels of the page wide. */
  approach({ place, normal, stitchMm, isOpen }: Spot, pixelsPerStitch: number): void {
    const { forward } = this.axes(), along = forward[0] * normal[0] + forward[1] * normal[1] + forward[2] * normal[2], side = isOpen && along > 0 ? -1 : 1;
    const height = Math.max(1, this.controls.domElement?.clientHeight ?? 1), distance = (stitchMm * height) / (2 * TAN_HALF_FIELD * pixelsPerStitch);
    const [x, y, z] = normal, to: Stand = {
      bearing: { azimuth: Math.atan2(side * x, -side * y), elevation: MathUtils.clamp(Math.asin(MathUtils.clamp(side * z, -1, 1)), -STEEPEST, STEEPEST) },
      distance: Math.max(NEAREST_MM, distance), target: new Vector3(...place),
    };
    this.isMovedByPerson = true;
    this.moveTo(to, true);
  }

  orbitBy(azimuth: number, elevation: number): void {
    const now = this.present();
    this.moveByPerson({ ...now, bearing: {
      azimuth: now.bearing.azimuth + azimuth,
      elevation: MathUtils.clamp(now.bearing.elevation + elevation, -STEEPEST, STEEPEST),
    } });
  }

  /** Shifts the picture by shares of its height. */
  panBy(right: number, up: number): void {
    const now = this.present(), axes = axesOf(now.bearing);
    const scale = 2 * now.distance * TAN_HALF_FIELD;
    const target = now.target.clone()
      .addScaledVector(new Vector3(...axes.right), right * scale)
      .addScaledVector(new Vector3(...axes.up), up * scale);
    this.moveByPerson({ ...now, target });
  }

  /** To be called once a frame before drawing; asks for another frame while anything still moves. */
  advance(time: number): void {
    if (this.motion) this.advanceMotion(this.motion, time);
    else this.controls.update();
    const distance = this.camera.position.distanceTo(this.controls.target);
    this.camera.near = Math.max(LEAST_NEAR_MM, NEAR_SHARE * distance, distance - 900);
    this.camera.far = distance + 3000;
    this.camera.updateProjectionMatrix();
  }

  dispose(): void {
    this.controls.removeEventListener('change', this.onChange);
    this.controls.removeEventListener('start', this.onStart);
    this.controls.domElement?.removeEventListener('wheel', this.onWheel, { capture: true });
    this.controls.dispose();
  }

  private advanceMotion(motion: Motion, time: number): void {
    if (motion.start < 0) motion.start = time;
    const t = Math.min(1, (time - motion.start) / MOTION_MS), s = ease(t), { from, to } = motion;
    this.stand({
      bearing: {
        azimuth: from.bearing.azimuth + s * shortTurn(to.bearing.azimuth - from.bearing.azimuth),
        elevation: MathUtils.lerp(from.bearing.elevation, to.bearing.elevation, s),
      },
      distance: from.distance * (to.distance / from.distance) ** s,
      target: from.target.clone().lerp(to.target, s),
    });
    if (t < 1) { this.requestDraw(true); return; }
    this.motion = null;
    // The sock may have grown on the way. What hangs from a machine reaches its frame's foot and would be framed for ever.
    if (!this.isMachine) this.keepInView();
  }

  private present(): Stand {
    const offset = this.camera.position.clone().sub(this.controls.target);
    const distance = offset.length();
    return {
      bearing: { azimuth: Math.atan2(offset.x, -offset.y), elevation: Math.asin(MathUtils.clamp(offset.z / distance, -1, 1)) },
      distance,
      target: this.controls.target.clone(),
    };
  }

  private stand({ bearing, distance, target }: Stand): void {
    const { forward } = axesOf(bearing);
    this.controls.target.copy(target);
    this.camera.position.copy(target).addScaledVector(new Vector3(...forward), -distance);
    this.isOwnMove = true;
    this.controls.update();
    this.isOwnMove = false;
  }

  /** Turns and zooms from now on about the depth of the cloth under a point of the window: so a zoom comes near it and never runs through it. */
  private lookAtCloth(clientX: number, clientY: number): void {
    const depth = this.depthAt(clientX, clientY);
    if (depth === null) return;
    const { forward } = this.axes();
    this.controls.target.copy(this.camera.position).addScaledVector(new Vector3(...forward), Math.max(depth, NEAREST_MM));
  }

  private readonly onWheel = (event: Event): void => { if (event instanceof WheelEvent) this.lookAtCloth(event.clientX, event.clientY); };

  private moveByPerson(to: Stand): void {
    this.motion = null;
    this.isMovedByPerson = true;
    this.stand(to);
    this.requestDraw(true);
  }

  private readonly onChange = (): void => { if (!this.isOwnMove) this.requestDraw(true); };

  private readonly onStart = (): void => {
    this.motion = null;
    this.isMovedByPerson = true;
  };
}

/** An angle brought into -pi .. pi. */
function shortTurn(angle: number): number {
  return angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));
}
