import { BackSide, BufferGeometry, Group, type Material, Mesh, MeshBasicMaterial, PerspectiveCamera, type RawShaderMaterial, Scene, Vector3, WebGLRenderer } from 'three';
import { type FormedLoops, type Forming, sideOfBed } from '../yarn/form-loops.ts';
import { NEEDLE } from '../machine/codes.ts';
import { linearColour, type Rgb, SCHEMES, woolColours } from './colour.ts';
import { FormNeedleMesh, STEEL } from './form-needle.ts';
import { createFormYarn, FormTubes } from './form-tubes.ts';
import { createMatteMaterial, paintMatte, solidGeometry } from './matte-mesh.ts';
import { SolidBuilder } from './solid-builder.ts';
import type { Theme } from './sock-view-types.ts';

/** From where a close-up is seen: in front of the machine, along its beds, from behind it. */
export type FormSide = 'knitter' | 'along' | 'behind';

export interface FormView {
  /** Another pass or other needles. Colours by the grid's yarns. */
  setForming(forming: Forming, yarnColours: readonly string[]): void;
  /** `followed`: the needle whose old stitches stand out. */
  show(formed: FormedLoops, followed: number): void;
  setTheme(theme: Theme): void;
  lookFrom(side: FormSide): void;
  /** Radians. */
  turnBy(azimuth: number, height: number): void;
  /** Where the needles' names go, pixels from the canvas's corner: after every drawing. */
  onDrawn(callback: (places: readonly (readonly [number, number])[]) => void): void;
  onContext(callback: (state: 'lost' | 'restored') => void): void;
  counters(): { readonly geometries: number; readonly frames: number };
  dispose(): void;
}

/** Azimuth and height of the camera, radians; for the front bed, whose needles point away, from higher up. Chosen by eye. */
const VIEWS: Readonly<Record<FormSide, readonly [number, number]>> = { knitter: [-0.42, 0.12], along: [-1.35, 0.1], behind: [Math.PI - 0.42, 0.5] };
const FRONT_BED: Readonly<Record<FormSide, readonly [number, number]>> = { knitter: [-0.2, 0.4], along: [-1.35, 0.1], behind: [Math.PI - 0.42, 0.12] };
const FIELD_DEGREES = 24;
const OUTLINE = 0.055;

class CloseView implements FormView {
  private readonly renderer: WebGLRenderer;
  private readonly scene = new Scene();
  private readonly camera = new PerspectiveCamera(FIELD_DEGREES, 1, 1, 2000);
  private readonly yarn: RawShaderMaterial[] = [];
  private readonly steel = createMatteMaterial({ tones: 5, isNeedle: false, fades: false });
  private readonly ink = new MeshBasicMaterial({ side: BackSide });
  private readonly stuff = new Group();
  private readonly observer: ResizeObserver;
  private tubes: readonly [FormTubes, FormTubes] | null = null;
  private needles: readonly FormNeedleMesh[] = [];
  private feeder: Mesh | null = null;
  private forming: Forming | null = null;
  private colours: readonly string[] = [];
  private formed: FormedLoops | null = null;
  private followed = 0;
  private theme: Theme;
  private turn: [number, number] = [...VIEWS.knitter];
  private pending = 0;
  private frames = 0;
  private isLost = false;
  private drawnCallback: (places: readonly (readonly [number, number])[]) => void = () => undefined;
  private contextCallback: (state: 'lost' | 'restored') => void = () => undefined;

  constructor(private readonly canvas: HTMLCanvasElement, theme: Theme) {
    this.theme = theme;
    this.renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true });
    this.scene.add(this.stuff);
    canvas.addEventListener('webglcontextlost', this.onLost);
    canvas.addEventListener('webglcontextrestored', this.onRestored);
    this.observer = new ResizeObserver(() => { this.resize(); });
    this.observer.observe(canvas);
    this.resize();
  }

  setForming(forming: Forming, yarnColours: readonly string[]): void {
    const isOtherBed = this.isFront() !== isFrontBed(forming);
    this.forming = forming;
    this.colours = yarnColours;
    if (isOtherBed) this.lookFrom('knitter');
    this.build();
  }

  show(formed: FormedLoops, followed: number): void {
    this.formed = formed;
    if (followed !== this.followed) {
      this.followed = followed;
      this.setTones();
    }
    this.requestDraw();
  }

  setTheme(theme: Theme): void {
    if (theme === this.theme) return;
    this.theme = theme;
    this.paint();
    this.requestDraw();
  }

  lookFrom(side: FormSide): void {
    this.turn = [...(this.isFront() ? FRONT_BED : VIEWS)[side]];
    this.requestDraw();
  }

  turnBy(azimuth: number, height: number): void {
    this.turn = [this.turn[0] + azimuth, Math.min(1.4, Math.max(-0.9, this.turn[1] + height))];
    this.requestDraw();
  }

  onDrawn(callback: (places: readonly (readonly [number, number])[]) => void): void { this.drawnCallback = callback; }
  onContext(callback: (state: 'lost' | 'restored') => void): void { this.contextCallback = callback; }
  counters(): { readonly geometries: number; readonly frames: number } { return { geometries: this.renderer.info.memory.geometries, frames: this.frames }; }

  dispose(): void {
    cancelAnimationFrame(this.pending);
    this.isLost = true;
    this.observer.disconnect();
    this.canvas.removeEventListener('webglcontextlost', this.onLost);
    this.canvas.removeEventListener('webglcontextrestored', this.onRestored);
    this.clear();
    for (const material of this.materials()) material.dispose();
    this.renderer.dispose();
    // A browser holds few contexts; each opening takes a new one.
    this.renderer.forceContextLoss();
  }

  private isFront(): boolean { return this.forming !== null && isFrontBed(this.forming); }
  private materials(): readonly Material[] { return [...this.yarn, this.steel, this.ink]; }

  private clear(): void {
    for (const needle of this.needles) needle.dispose();
    this.stuff.traverse((part) => { if (part instanceof Mesh && part.geometry instanceof BufferGeometry) part.geometry.dispose(); });
    this.stuff.clear();
    for (const material of this.yarn.splice(0)) material.dispose();
  }

  private build(): void {
    const { forming } = this;
    if (forming === null) return;
    this.clear();
    const { scene, size, halfGap } = forming, { needles, pitchMm, diameterMm } = scene.source, tones = LOOKS * this.colours.length;
    const wool = createFormYarn(tones);
    this.yarn.push(wool);
    const thickest = Math.max(...diameterMm);
    this.tubes = [new FormTubes(scene, 0), new FormTubes(scene, OUTLINE * thickest)];
    const meshes = [new Mesh(this.tubes[0].geometry, wool), new Mesh(this.tubes[1].geometry, this.ink)];
    this.needles = needles.map(({ bed, state }) => new FormNeedleMesh(scene.size, size.diameterMm, state === NEEDLE.held, sideOfBed(bed), this.steel));
    const { columnX } = scene, edge = new SolidBuilder(), from = columnX[0] - 2 * pitchMm, to = columnX[columnX.length - 1] + 2 * pitchMm;
    for (const bed of new Set(needles.map((at) => at.bed))) {
      const side = sideOfBed(bed), z = -side * (halfGap + 0.22 * pitchMm), radius = 0.035 * pitchMm;
      edge.addBar([[from, -0.1 * pitchMm, z], [to, -0.1 * pitchMm, z]], radius, 10, [0, 1, 0], STEEL.edge);
    }
    const guide = new SolidBuilder(), d = size.diameterMm;
    guide.addTurned([0, 0, 0], [[1.5 * d, 7 * d], [1.7 * d, 6.6 * d], [1.5 * d, 4 * d], [0.95 * d, 0.3 * d], [0.62 * d, 0]], 24, STEEL.feeder);
    this.feeder = new Mesh(solidGeometry(guide.build()), this.steel);
    this.feeder.rotation.x = -Math.PI / 2;
    for (const mesh of [...meshes, this.feeder]) mesh.frustumCulled = false;
    this.stuff.add(...meshes, new Mesh(solidGeometry(edge.build()), this.steel), this.feeder, ...this.needles.map(({ group }) => group));
    this.setTones();
    this.paint();
    this.requestDraw();
  }

  private setTones(): void {
    const { forming, tubes, followed } = this;
    if (forming === null) return;
    const { items, thread } = forming.scene;
    const lookOf = (piece: number): number => (isNew(forming, piece) ? 0 : items[piece].column === followed && items[piece].row === 0 ? 1 : 2);
    tubes?.[0].setTones((piece) => LOOKS * thread.yarn[piece] + lookOf(piece));
  }

  private paint(): void {
    const scheme = SCHEMES[this.theme];
    const steel = (this.theme === 'light' ? ['#5f666d', '#b5462f', '#b98a2e', '#6d6a64', '#4f5d69'] : ['#8f98a4', '#f2a65a', '#e0c27a', '#6b7684', '#8fa0b4']).map(linearColour);
    paintMatte(this.steel, scheme, steel);
    const tones = woolColours(this.colours).flatMap((rgb): Rgb[] => [rgb, paled(rgb, 0.5), paled(rgb, 1)]);
    for (const material of this.yarn) paintMatte(material, scheme, tones);
    this.ink.color.setRGB(...(this.theme === 'light' ? linearColour('#3a2c20') : linearColour('#0a0f16')));
  }

  private readonly requestDraw = (): void => {
    if (this.pending === 0 && !this.isLost) this.pending = requestAnimationFrame(this.draw);
  };

  private resize(): void {
    const width = Math.max(1, this.canvas.clientWidth), height = Math.max(1, this.canvas.clientHeight);
    this.renderer.setPixelRatio(Math.min(2, devicePixelRatio));
    this.renderer.setSize(width, height, false);
    this.camera.aspect = width / height;
    // A resized canvas is blank until drawn.
    if (this.frames > 0) this.draw();
    else this.requestDraw();
  }

  private aim({ scene: { columnX, source: { pitchMm } }, size }: Forming): void {
    const width = columnX[columnX.length - 1] - columnX[0] + 0.9 * pitchMm, top = 0.8 * size.needle.clear + 0.9 * pitchMm, foot = -size.rootMm - 2 * size.rowMm;
    const tan = Math.tan(FIELD_DEGREES * Math.PI / 360), distance = Math.max((top - foot) / 2 / tan, width / 2 / (tan * this.camera.aspect)) + 0.5 * pitchMm;
    const [azimuth, height] = this.turn, spare = Math.max(0, tan * distance - (top - foot) / 2);
    // Where there is more room than is wanted, it shows more of the fabric.
    const target = new Vector3(0, (top + foot) / 2 - 0.6 * spare, 0);
    this.camera.position.set(Math.sin(azimuth) * Math.cos(height), Math.sin(height), Math.cos(azimuth) * Math.cos(height)).multiplyScalar(distance).add(target);
    this.camera.near = distance / 20;
    this.camera.far = 4 * distance;
    this.camera.lookAt(target);
    this.camera.updateProjectionMatrix();
  }

  private readonly draw = (): void => {
    this.pending = 0;
    const { forming, formed, tubes } = this;
    if (this.isLost || forming === null || formed === null || tubes === null || formed.lay.thread !== forming.scene.thread) return;
    for (const tube of tubes) tube.show(formed.lay);
    const { scene, halfGap } = forming;
    this.needles.forEach((needle, i) => { needle.show(scene.columnX[i], -sideOfBed(scene.source.needles[i].bed) * halfGap, formed.needles[i]); });
    const { x, y, z } = formed.feeder;
    this.feeder?.position.set(x, y, z);
    this.aim(forming);
    this.renderer.render(this.scene, this.camera);
    this.frames++;
    const { clientWidth, clientHeight } = this.canvas, { size } = forming;
    this.drawnCallback([...scene.columnX].map((x, i) => {
      const at = new Vector3(x, -size.rootMm - 1.55 * size.rowMm, sideOfBed(scene.source.needles[i].bed) * (0.28 * size.pitchMm - halfGap)).project(this.camera);
      return [(0.5 + at.x / 2) * clientWidth, (0.5 - at.y / 2) * clientHeight] as const;
    }));
  };

  private readonly onLost = (event: Event): void => {
    event.preventDefault();
    this.isLost = true;
    cancelAnimationFrame(this.pending);
    this.pending = 0;
    this.clear();
    this.contextCallback('lost');
  };

  private readonly onRestored = (): void => {
    this.isLost = false;
    this.build();
    this.contextCallback('restored');
  };
}

/** Colours of each yarn: that of the pass, of the old stitches on the needle that is followed, and of all that was knitted before. */
const LOOKS = 3;

/** What lies there before is paler, and of pale yarn darker, so that the new yarn is told from it. Chosen by eye. */
function paled([r, g, b]: Rgb, share: number): Rgb {
  const isPale = 0.2126 * r + 0.7152 * g + 0.0722 * b > 0.35, most = Math.max(r, g, b), far = isPale ? [0.3 * r, 0.3 * g, 0.32 * b] : [r, g, b].map((c) => 0.2 + 0.62 * (c / most));
  return [r + share * (far[0] - r), g + share * (far[1] - g), b + share * (far[2] - b)];
}

const isFrontBed = ({ scene: { source, hasBothBeds } }: Forming): boolean => !hasBothBeds && source.needles[0].bed === 0;

/** Yarn of the pass itself. */
function isNew({ scene: { items, firstMade, lastTail } }: Forming, piece: number): boolean {
  return firstMade >= 0 && piece >= firstMade && piece <= lastTail && items[piece].kind !== 'old' && items[piece].kind !== 'fabric';
}

/** A close-up on a canvas of its own. Throws where the browser has no WebGL 2. */
export function createFormView(canvas: HTMLCanvasElement, theme: Theme): FormView { return new CloseView(canvas, theme); }
