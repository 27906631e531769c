import type { Fabric } from '../fabric/fabric.ts';
import type { GrowingFabric } from '../fabric/growing-fabric.ts';
import type { FormMesh } from '../foot/form-mesh.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { HungSock } from '../pipeline/hang-sock.ts';
import type { Holding } from '../pipeline/result.ts';
import type { PoseName } from '../shape/pose.ts';
import type { ColourScale } from './colour-scale.ts';

export type Theme = 'light' | 'dark';
/**
 * What the cloth's colours tell: its yarn; how far it is stretched along its courses or its wales; worn, how
 * hard it presses and how far it stands off the skin; beside a second sock, how much longer or wider that one is;
 * in which pass, or on which bed, each stitch was knitted.
 */
export type ClothLayer = 'yarn' | 'stretch-width' | 'stretch-length' | 'pass' | 'bed' | 'pressure' | 'gap' | 'longer' | 'wider';
/** A foot in a sock: seen through gaps only, left out, or through cloth like glass. */
export type FootLook = 'inside' | 'hidden' | 'glass';
/** A second sock: next to the first from wherever one looks, or in its place as an outline, and a veil where it stands out. */
export type Arrangement = 'beside' | 'over';
/** Behind a picture that is taken away: the page's own backdrop, one colour like it, or nothing but the sock's shadow. */
export type Ground = 'themed' | 'plain' | 'none';
export type ViewPreset = 'side' | 'back' | 'front' | 'sole' | 'three-quarter';

/** Numbers that colours stand for: one entry a vertex of the fabric, in the scale's unit. */
export interface ClothMap { readonly values: Float64Array; readonly scale: ColourScale }

/** What holds the cloth besides itself. */
export interface Around {
  readonly holding: Holding | null;
  /** Colour of a cast-on that no pass has knitted yet: yarn round the needles, and no cloth. Null where there is cloth. */
  readonly castOnColour: string | null;
  readonly body: FormMesh | null;
}

/** A second sock in the same pose and the same frame as the first: its heel where the first one's is. */
export interface Companion {
  readonly fabric: Fabric;
  readonly grid: StitchGrid;
  readonly yarnColours: readonly string[];
  /** Three entries a vertex, mm. */
  readonly positions: Float64Array;
  readonly pose: PoseName;
  readonly around?: Around | null;
  /** Null or missing shows its yarn. */
  readonly map?: ClothMap | null;
  /** Thickness of each yarn (by grid.yarn) as it lies in the fabric. */
  readonly diametersMm?: readonly number[];
  /** What it is called in the picture, and what the first sock is called while it is there. */
  readonly label: string;
  readonly firstLabel?: string;
}

/** A sock as it grows on the machine: its whole cloth, of which as much is drawn as exists after the pass. */
export interface GrowthFrame extends HungSock {
  readonly cloth: GrowingFabric;
  readonly grid: StitchGrid;
  /** `#rrggbb`, indexed by grid.yarn. */
  readonly yarnColours: readonly string[];
  /** Thickness of each yarn (by grid.yarn) as it lies in the fabric. */
  readonly diametersMm?: readonly number[];
}

/** Loops of the first sock's grid that stand out: those from `first` up to `end`, and some more; wraps too. Loops that are not in the picture are left out. */
export interface Lit {
  readonly first: number;
  readonly end: number;
  readonly loops: readonly number[];
  /** The one that stands out most, beside which the others are paler; null or missing where all are alike. */
  readonly strongest?: number | null;
}

/** What the picture needs to know of a loop when the pointer rests on it. */
export interface HoveredLoop { readonly sock: 'first' | 'second'; readonly loop: number; readonly clientX: number; readonly clientY: number }

/** A part of a picture that is larger than one drawing can be, in its pixels from its left and its top. */
export interface PicturePart {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  /** Of the whole picture. */
  readonly wholeWidth: number;
  readonly wholeHeight: number;
}

/** What the cloth is drawn as: a surface with stitches painted on it, yarn that is laid loop by loop, or one going over into the other. */
export type DetailLevel = 'mesh' | 'blend' | 'yarn';

/** What a frame drew. */
export interface DrawnDetail {
  /** Width on the screen, in pixels of the page (of a picture that is taken: its own), of the nearest stitch in sight, as wide as its gauge has it. */
  readonly pixelsPerStitch: number;
  readonly level: DetailLevel;
  /** Of the whole frame. */
  readonly triangles: number;
  readonly calls: number;
  /** Pieces of yarn (yarn/yarn-lay.ts) that were drawn: those in sight. */
  readonly pieces: number;
}

/** The sock on its canvas. Draws on demand only. */
export interface SockView {
  /**
   * New cloth: colours, kinds and cells by loop. `yarnColours` are `#rrggbb`, indexed by grid.yarn, and so are the yarns'
   * thicknesses as they lie in the fabric; without these they are usual ones for its stitches. Keeps the camera.
   */
  setFabric(fabric: Fabric, grid: StitchGrid, yarnColours: readonly string[], diametersMm?: readonly number[]): void;
  /**
   * Three entries a vertex, mm (axes in shape/pose.ts). Frames the sock if `isFramed`. A flat sock
   * lies on a table behind it, one on the beds hangs free, any other is over a floor; the pose before
   * it is kept if none is named. Presets are those of the pose: a machine is first seen from its
   * front, a sock from its side. `around` is drawn with it.
   */
  setPositions(positions: Float64Array, isFramed: boolean, pose?: PoseName, around?: Around | null): void;
  /** Numbers of the fabric that was set last, at its last positions; null shows its yarn. */
  setMap(map: ClothMap | null): void;
  /**
   * A second sock, or none. Beside: to the first one's right from wherever one looks, each over its own
   * shadow. Over: the second as a veil behind the first with its outline over it, or the first so where the second
   * alone has a map. On the beds always beside.
   */
  setCompanion(companion: Companion | null, arrangement: Arrangement): void;
  setFootLook(look: FootLook): void;
  /**
   * The first sock as it grows, in place of what was set last, which null brings back. Framed with its first
   * frame; after that the camera stays where the person has put it.
   */
  setGrowth(frame: GrowthFrame | null): void;
  /** Loops drawn in a colour of their own, whatever the pose, the layer and the yarn; null lights none. */
  setLit(lit: Lit | null): void;
  /** Moves the camera if the sock runs out of the picture and the person has not turned or zoomed it. */
  keepInView(): void;
  /** Keeps so many pixels at the picture's top and foot free of a framed sock. */
  keepFree(topPixels: number, footPixels: number): void;
  /** Cuts away what of a sock lies nearer along its own side axis y than a plane: 0 nothing, 0.5 half of its breadth, 1 all; null cuts nothing. Not on the machine. */
  setCut(share: number | null): void;
  /** The sock turned inside out: its places mirrored in y, whereby the fabric's outside faces inwards. Not on the machine. */
  setInsideOut(isInsideOut: boolean): void;
  /** Moves the camera so that this loop of the first sock lies in the middle, seen square on, a stitch so many pixels of the page wide. */
  approach(loop: number, pixelsPerStitch: number): void;
  setYarnColours(yarnColours: readonly string[]): void;
  /** An old shape waiting for its successor is drawn paler. */
  setDimmed(isDimmed: boolean): void;
  setTheme(theme: Theme): void;
  /** Camera to a preset, or the present preset again and framed (`reset`). Motion is short, none if the person asks for reduced motion. */
  showPreset(preset: ViewPreset): void;
  reset(): void;
  zoomBy(factor: number): void;
  /** From the next framing on, of one sock, or of two over each other, only the cloth of these sections (SECTION codes) is framed, all again for null or where there is none of it. */
  lookAt(sections: ReadonlySet<number> | null): void;
  /** Turns the camera about the sock, for keyboard use. */
  orbitBy(azimuthRad: number, polarRad: number): void;
  /** Draws a measure's line over the sock, always visible, with its label at the line's middle; null removes it. */
  showLine(points: Float64Array | null, label: string): void;
  onHover(callback: (hovered: HoveredLoop | null) => void): void;
  /** Called when the GPU context is lost and when it is back. */
  onContext(callback: (state: 'lost' | 'restored') => void): void;
  /** What the last frame drew. */
  detail(): DrawnDetail;
  /** Called when what the cloth is drawn as has changed. */
  onDetail(callback: (level: DetailLevel) => void): void;
  resize(): void;
  /** The picture as it stands, with so many pixels to one of the page's, as far as the graphics card can; null while it cannot draw. */
  takePicture(scale: number, ground: Ground): ImageData | null;
  /** A part of the picture as it stands, drawn in as many pixels as the whole of it is to have; null while it cannot draw. The sides of the whole are those of the page's picture. */
  takePart(part: PicturePart, ground: Ground): ImageData | null;
  /** How many pixels the whole of a picture taken in parts may have along a side. */
  mostPixels(): number;
  /** GPU counters for tests: geometries, textures, programs, frames drawn so far. */
  counters(): { readonly geometries: number; readonly textures: number; readonly programs: number; readonly frames: number };
  dispose(): void;
}
