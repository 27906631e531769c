export type PoseName = 'flat' | 'tube';

export type PoseStatus = 'converged' | 'stalled' | 'budget' | 'cancelled';

/**
 * A relaxed shape. Axes: x points from heel to toe, y to the sock's left (the side where
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
  /** Called now and then with the present positions (not to be kept) and 0..1. */
  readonly onProgress?: (positions: Float64Array, fraction: number) => void;
  /** Asked between iterations. */
  readonly isCancelled?: () => boolean;
  /** Iterations allowed; default is ample for any sock within the limits. */
  readonly maxIterations?: number;
  /** Where to stop: residual, default 1e-3. */
  readonly tolerance?: number;
}
