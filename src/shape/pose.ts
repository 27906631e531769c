import type { Fabric } from '../fabric/fabric.ts';
import type { Firmness } from './cloth-table.ts';

/** Shapes that a sock takes by itself. */
export type FreePoseName = 'flat' | 'tube';
/** Those, and the shapes that something gives it: the machine that it hangs on, the foot that wears it. */
export type PoseName = FreePoseName | 'beds' | 'worn';

export type PoseStatus = 'converged' | 'stalled' | 'budget' | 'cancelled';

/**
 * A relaxed shape. Axes, but on the beds (there x along the beds, y from front to back): x points from heel to toe, y to the sock's left (the side where
 * `vertexAround` is 0.25), z up along the leg. The heel's middle lies near the origin's height.
 */
export interface Pose {
  readonly name: PoseName;
  /** Three entries a vertex of the fabric, mm. */
  readonly positions: Float64Array;
  readonly status: PoseStatus;
  /** Root mean square of the vertices' net forces over the mean force along an edge. */
  readonly residual: number;
  readonly iterations: number;
}

export interface RelaxOptions {
  /** Positions to start from instead of the embedding; same fabric. */
  readonly start?: Float64Array;
  /** Of the cloth, in the free poses; default soft. */
  readonly firmness?: Firmness;
  /** The same sock with larger stitches: a help in going on from `start`, which takes less than half as long with it. Unused without a start. */
  readonly coarse?: Fabric;
  /** Called now and then with the present positions (not to be kept) and 0..1. */
  readonly onProgress?: (positions: Float64Array, fraction: number) => void;
  /** Asked between iterations. */
  readonly isCancelled?: () => boolean;
  /** Iterations allowed; default is ample for any sock within the limits. */
  readonly maxIterations?: number;
  /** Where to stop: residual, default 1e-3. */
  readonly tolerance?: number;
}
