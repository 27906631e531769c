import type { Fabric } from '../fabric/fabric.ts';
import type { FormMesh } from '../foot/form-mesh.ts';
import type { StitchGrid } from '../machine/grid.ts';
import type { Stretch } from '../measure/measure-stretch.ts';
import type { Holding } from '../pipeline/result.ts';
import type { PoseName } from '../shape/pose.ts';

export type Theme = 'light' | 'dark';
/** What the cloth's colours tell: its yarn, or how far it is stretched along its courses or its wales. */
export type ClothLayer = 'yarn' | 'stretch-width' | 'stretch-length';
/** A second sock: next to the first from wherever one looks, or in its place as a veil with an outline. */
export type Arrangement = 'beside' | 'over';
export type ViewPreset = 'side' | 'back' | 'front' | 'sole' | 'three-quarter';

/** One entry a vertex of the fabric. */
export type VertexStretch = Pick<Stretch, 'vertexWidth' | 'vertexLength'>;

/** What holds the cloth besides itself. */
export interface Around {
  readonly holding: Holding | null;
  /** Colour of a cast-on that no pass has knitted yet: yarn round the needles, and no cloth. Null where there is cloth. */
  readonly castOnColour: string | null;
  readonly body: FormMesh | null;
}

/** What the picture needs to know of a loop when the pointer rests on it. */
export interface HoveredLoop { readonly loop: number; readonly clientX: number; readonly clientY: number }

/** The sock on its canvas. Draws on demand only. */
export interface SockView {
  /** New cloth: colours, kinds and cells by loop. `yarnColours` are `#rrggbb`, indexed by grid.yarn. Keeps the camera. */
  setFabric(fabric: Fabric, grid: StitchGrid, yarnColours: readonly string[]): void;
  /**
   * Three entries a vertex, mm (axes in shape/pose.ts). Frames the sock if `isFramed`. A flat sock
   * lies on a table behind it, one on the beds hangs free, any other is over a floor; the pose before
   * it is kept if none is named. Presets are those of the pose: a machine is first seen from its
   * front, a sock from its side. `around` is drawn with it.
   */
  setPositions(positions: Float64Array, isFramed: boolean, pose?: PoseName, around?: Around | null): void;
  /** Stretch of each vertex at the last positions set, a share of the size at rest (measure/measure-stretch.ts). */
  setStretch(stretch: VertexStretch): void;
  /** What the colours tell. */
  setLayer(layer: ClothLayer): void;
  /** Moves the camera if the sock runs out of the picture and the person has not turned or zoomed it. */
  keepInView(): void;
  /** Keeps so many pixels at the picture's top and foot free of a framed sock. */
  keepFree(topPixels: number, footPixels: number): void;
  setYarnColours(yarnColours: readonly string[]): void;
  /** An old shape waiting for its successor is drawn paler. */
  setDimmed(isDimmed: boolean): void;
  setTheme(theme: Theme): void;
  /** Camera to a preset, or the present preset again and framed (`reset`). Motion is short, none if the person asks for reduced motion. */
  showPreset(preset: ViewPreset): void;
  reset(): void;
  zoomBy(factor: number): void;
  /** Turns the camera about the sock, for keyboard use. */
  orbitBy(azimuthRad: number, polarRad: number): void;
  /** Draws a measure's line over the sock, always visible, with its label at the line's middle; null removes it. */
  showLine(points: Float64Array | null, label: string): void;
  onHover(callback: (hovered: HoveredLoop | null) => void): void;
  /** Called when the GPU context is lost and when it is back. */
  onContext(callback: (state: 'lost' | 'restored') => void): void;
  resize(): void;
  /** GPU counters for tests: geometries, textures, programs, frames drawn so far. */
  counters(): { readonly geometries: number; readonly textures: number; readonly programs: number; readonly frames: number };
  dispose(): void;
}
