import type { EnergyTerm } from './energy.ts';
import { createHistory } from './history.ts';
import type { Preconditioner } from './preconditioner.ts';

export type MinimiseStatus = 'converged' | 'stalled' | 'budget' | 'cancelled';

export interface MinimiseOptions {
  /** Residual at which to stop. */
  readonly tolerance?: number;
  readonly maxIterations?: number;
  /** Pairs of steps that the quasi-Newton model remembers. */
  readonly memory?: number;
  /** Force against which the residual is measured when no element carries more, N. */
  readonly leastForce?: number;
  /** No node moves farther in one step, in units of length: steps from afar could tangle. Default: free. */
  readonly longestMove?: number;
  /** Called every `progressEvery` iterations with the present positions, not to be kept. */
  readonly onProgress?: (positions: Float64Array, residual: number, iteration: number) => void;
  readonly progressEvery?: number;
  readonly isCancelled?: () => boolean;
}

export interface MinimiseResult {
  readonly status: MinimiseStatus;
  /** Root mean square of the nodes' net forces over the mean force along an edge. */
  readonly residual: number;
  readonly energy: number;
  readonly iterations: number;
  readonly evaluations: number;
}

const ARMIJO = 1e-4;
/** Slope at which a step counts as too short, as a share of the slope at its start. */
const CURVATURE = 0.9;
const MOST_TRIALS = 20;
/** Energies closer than this, relatively, are equal but for rounding: then slopes decide (Hager & Zhang, SIAM J. Optim. 16 (2005) 170-192). */
const ENERGY_ROUNDING = 1e-12;

/**
 * Minimises the sum of `terms` from `positions`, in place: L-BFGS whose initial metric is the
 * preconditioner (Nocedal, Math. Comp. 35 (1980) 773-782; with a factor of a Laplacian-like
 * Hessian, Liu, Bouaziz & Kavan, ACM Trans. Graph. 36 (2017) 23), every step lowering the energy.
 * Same input, same result to the bit: no clock, no randomness, fixed order.
 */
export function minimise(
  positions: Float64Array, terms: readonly EnergyTerm[], preconditioner: Preconditioner, options: MinimiseOptions = {},
): MinimiseResult {
  const { tolerance = 1e-3, maxIterations = 2000, memory = 8, leastForce = 0, longestMove = Infinity, progressEvery = 10 } = options;
  const n = positions.length;
  const gradient = new Float64Array(n), trial = new Float64Array(n), trialGradient = new Float64Array(n), step = new Float64Array(n);
  const history = createHistory(n, memory);
  let evaluations = 0;
  let energy = evaluate(positions, gradient);
  let residual = measureResidual();
  let iterations = 0;
  const finish = (status: MinimiseStatus): MinimiseResult => ({ status, residual, energy, iterations, evaluations });

  while (residual > tolerance) {
    if (iterations >= maxIterations) return finish('budget');
    if (options.isCancelled?.() === true) return finish('cancelled');
    history.directionInto(step, gradient, preconditioner);
    let slope = dot(step, gradient);
    if (!(slope < 0)) {
      history.clear();
      history.directionInto(step, gradient, preconditioner);
      slope = dot(step, gradient);
    }
    if (!searchLine(slope)) {
      if (history.size() === 0) return finish('stalled');
      history.clear();
      continue;
    }
    iterations++;
    residual = measureResidual();
    if (iterations % progressEvery === 0) options.onProgress?.(positions, residual, iterations);
  }
  return finish('converged');

  function evaluate(x: Float64Array, g: Float64Array): number {
    evaluations++;
    g.fill(0);
    let sum = 0;
    for (const term of terms) sum += term.addGradient(x, g);
    return sum;
  }

  /** Forces are those of the last evaluation, which is the one just accepted. */
  function measureResidual(): number {
    let sum = 0, count = 0;
    for (const term of terms) {
      const forces = term.edgeForces?.();
      if (forces === undefined) continue;
      sum += forces.sum;
      count += forces.count;
    }
    const force = Math.max(leastForce, count > 0 ? sum / count : 0);
    return Math.sqrt(3 * dot(gradient, gradient) / n) / (force > 0 ? force : 1);
  }

  /** Weak Wolfe conditions by bisection with cubic steps; false when no lower energy is found. */
  function searchLine(slope: number): boolean {
    const longest = Math.max(1e-300, longestMove / largestMove(step));
    let t = Math.min(1, longest), low = 0, high = Infinity;
    let lowEnergy = energy, lowSlope = slope;
    const slack = ENERGY_ROUNDING * Math.abs(energy);
    for (let k = 0; k < MOST_TRIALS; k++) {
      for (let i = 0; i < n; i++) trial[i] = positions[i] + t * step[i];
      const trialEnergy = evaluate(trial, trialGradient);
      const trialSlope = dot(step, trialGradient);
      const isLower = trialEnergy <= energy + ARMIJO * t * slope
        || (trialEnergy <= energy + slack && Math.abs(trialSlope) <= CURVATURE * Math.abs(slope));
      if (!isLower) {
        high = t;
        t = low + (high - low) * cubicShare(lowEnergy, lowSlope * (high - low), trialEnergy, trialSlope * (high - low));
        continue;
      }
      if (trialSlope < CURVATURE * slope && t < longest && k < MOST_TRIALS - 1) {
        low = t; lowEnergy = trialEnergy; lowSlope = trialSlope;
        t = high < Infinity ? 0.5 * (low + high) : Math.min(2.5 * t, longest);
        continue;
      }
      history.push(positions, trial, gradient, trialGradient);
      positions.set(trial);
      gradient.set(trialGradient);
      energy = trialEnergy;
      return true;
    }
    return false;
  }
}

/** Farthest that a coordinate moves in a step. */
function largestMove(step: Float64Array): number {
  let most = 0;
  for (let i = 0; i < step.length; i++) most = Math.max(most, Math.abs(step[i]));
  return most;
}

/** Place in (0, 1) of the minimum of the cubic with these values and slopes at 0 and 1, kept off the ends. */
function cubicShare(value0: number, slope0: number, value1: number, slope1: number): number {
  const d = slope0 + slope1 - 3 * (value1 - value0);
  const root = d * d - slope0 * slope1;
  if (!(root >= 0) || !Number.isFinite(root)) return 0.3;
  const w = Math.sqrt(root);
  const share = 1 - (slope1 + w - d) / (slope1 - slope0 + 2 * w);
  return Number.isFinite(share) ? Math.min(0.8, Math.max(0.1, share)) : 0.3;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
