import type { EnergyTerm } from './energy.ts';

/** Where a minimiser stands; arrays as long as the positions. */
export interface Walk {
  readonly terms: readonly EnergyTerm[];
  /** Coordinates along this axis are given: no force is counted there and nothing moves. -1: none. */
  readonly fixedAxis: number;
  readonly positions: Float64Array;
  readonly gradient: Float64Array;
  /** Where to go from `positions`, for a step of length 1. */
  readonly step: Float64Array;
  /** After a search that found one: the new point and its gradient, still to be moved to. */
  readonly trial: Float64Array;
  readonly trialGradient: Float64Array;
  energy: number;
  evaluations: number;
}

const ARMIJO = 1e-4;
/** Slope at which a step counts as too short, as a share of the slope at its start. */
const CURVATURE = 0.9;
const MOST_TRIALS = 20;
/** Energies closer than this, relatively, are equal but for rounding: then slopes decide (Hager & Zhang, SIAM J. Optim. 16 (2005) 170-192). */
const ENERGY_ROUNDING = 1e-12;
/** Growth of a step that proves too short. */
const GROWTH = 2.5;

/** Energy at x; its gradient goes into g. */
export function evaluate(walk: Walk, x: Float64Array, g: Float64Array): number {
  walk.evaluations++;
  g.fill(0);
  let sum = 0;
  for (const term of walk.terms) sum += term.addGradient(x, g);
  if (walk.fixedAxis >= 0) for (let i = walk.fixedAxis; i < g.length; i += 3) g[i] = 0;
  return sum;
}

/**
 * Looks along the step for a point that meets the weak Wolfe conditions, by cubic steps back and
 * growing steps on. No coordinate moves farther than `longestMove`. Returns the energy found, with
 * its point in `trial` and `trialGradient`, or null when no lower energy is found.
 */
export function searchLine(walk: Walk, slope: number, longestMove: number): number | null {
  const { positions, step, trial, trialGradient, energy } = walk;
  const n = positions.length;
  const longest = longestMove / Math.max(largest(step), 1e-300);
  let t = Math.min(1, longest), low = 0, high = Infinity;
  let lowEnergy = energy, lowSlope = slope;
  const slack = ENERGY_ROUNDING * Math.abs(energy);
  for (let k = 0; k < MOST_TRIALS; k++) {
    for (let i = 0; i < n; i++) trial[i] = positions[i] + t * step[i];
    const trialEnergy = evaluate(walk, trial, trialGradient);
    const trialSlope = dot(step, trialGradient);
    const isLower = (trialEnergy < energy && trialEnergy <= energy + ARMIJO * t * slope)
      || (trialEnergy <= energy + slack && Math.abs(trialSlope) <= CURVATURE * Math.abs(slope));
    if (!isLower) {
      high = t;
      t = low + (high - low) * cubicShare(lowEnergy, lowSlope * (high - low), trialEnergy, trialSlope * (high - low));
    } else if (trialSlope < CURVATURE * slope && t < longest && k < MOST_TRIALS - 1) {
      low = t; lowEnergy = trialEnergy; lowSlope = trialSlope;
      t = high < Infinity ? 0.5 * (low + high) : Math.min(GROWTH * t, longest);
    } else return trialEnergy;
  }
  return null;
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

function largest(step: Float64Array): number {
  let most = 0;
  for (let i = 0; i < step.length; i++) most = Math.max(most, Math.abs(step[i]));
  return most;
}

export function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
