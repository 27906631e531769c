import type { PerspectiveCamera } from 'three';
import type { PicturePart } from './sock-view-types.ts';
import type { FadeMode } from './yarn-fade.ts';

/** A frame that is about to be drawn. */
export interface DrawnFrame {
  readonly camera: PerspectiveCamera;
  /** Size of the picture in pixels of the page, and pixels of the screen for each. */
  readonly width: number;
  readonly height: number;
  readonly ratio: number;
  /** Pixels for each of the page that detail is chosen by: more where they are cheap, and the same in motion. */
  readonly detailRatio: number;
  /** The finest of the yarn's levels that may be drawn now; -1 for none. */
  readonly finest: number;
  /** Triangles that one sock's yarn may take. */
  readonly mostTriangles: number;
  readonly isMoving: boolean;
  /** The page's, ms, and how mesh and yarn may go over into each other. */
  readonly time: number;
  readonly fade: FadeMode;
  /** Whether it is a picture that is taken away. */
  readonly isTaken: boolean;
  /** The part of the picture that is drawn; null for all of it. */
  readonly part: PicturePart | null;
}
