import { runToEnd } from '../base/run-to-end.ts';
import type { EnergyTerm } from './energy.ts';
import { createHistory } from './history.ts';
import type { History } from './history.ts';
import { dot, evaluate, searchLine } from './line-search.ts';
import type { Walk } from './line-search.ts';
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
  /** Lengths that must have come to rest too, whatever the residual: see `LENGTH_CHANGE`. */
  readonly lengths?: (positions: Float64Array) => readonly number[];
  /** Iterations after which a metric that can be renewed is. The default is `measured`: about the least time of 25, 40, 70 and never. */
  readonly renewEvery?: number;
  /** Residual above which steps are Newton's, by a metric that can solve for its stiffness, made anew for each. Default: none are. */
  readonly newtonAbove?: number;
  /** Axis (0 x, 1 y, 2 z) along which all coordinates are given; default none. The preconditioner must not move them. */
  readonly fixedAxis?: number;
}

export interface MinimiseResult {
  readonly status: MinimiseStatus;
  /** Root mean square of the nodes' net forces over the mean force along an edge. */
  readonly residual: number;
  readonly energy: number;
  readonly iterations: number;
  readonly evaluations: number;
}

const DEFAULTS = {
  tolerance: 1e-3, maxIterations: 2000, memory: 8, leastForce: 0, longestMove: Infinity, progressEvery: 10, renewEvery: 40, newtonAbove: Infinity, fixedAxis: -1,
} as const;

/** Newton's steps at most: where the energy is far from the model that its terms make of it, L-BFGS learns more. `chosen by eye`. */
const MOST_NEWTON_STEPS = 15;
/** Newton's direction leaves this share of the gradient unmet (inexact Newton: Dembo, Eisenstat & Steihaug, SIAM J. Numer. Anal. 19 (1982) 400-408). `measured`: 0.1 and 0.2 take about as long, at 0.3 L-BFGS has half as many steps more to do. */
const UNMET_SHARE = 0.1;

/** Lengths are at rest when none has moved by more than this share of itself over the last LENGTH_STEPS iterations. */
const LENGTH_CHANGE = 5e-4;
const LENGTH_STEPS = 5;

/**
 * Minimises the sum of `terms` from `positions`, in place: L-BFGS whose initial metric is the
 * preconditioner (Nocedal, Math. Comp. 35 (1980) 773-782; with a factor of a Laplacian-like
 * Hessian, Liu, Bouaziz & Kavan, ACM Trans. Graph. 36 (2017) 23), every step lowering the energy.
 * Same input, same result to the bit: no clock, no randomness, fixed order.
 */
export function minimise(
  positions: Float64Array, terms: readonly EnergyTerm[], preconditioner: Preconditioner, options: MinimiseOptions = {},
): MinimiseResult {
  return runToEnd(minimiseInSteps(positions, terms, preconditioner, options));
}

/** The same, yielding before every iteration so that a caller may do other things in between. */
export function* minimiseInSteps(
  positions: Float64Array, terms: readonly EnergyTerm[], preconditioner: Preconditioner, options: MinimiseOptions = {},
): Generator<void, MinimiseResult> {
  const { tolerance, maxIterations, memory, leastForce, longestMove, progressEvery, renewEvery, newtonAbove, fixedAxis } = { ...DEFAULTS, ...options };
  const n = positions.length;
  const walk: Walk = {
    terms, fixedAxis, positions, gradient: new Float64Array(n), step: new Float64Array(n),
    trial: new Float64Array(n), trialGradient: new Float64Array(n), energy: 0, evaluations: 0,
  };
  const history = createHistory(n, memory);
  walk.energy = evaluate(walk, positions, walk.gradient);
  let residual = measureResidual(walk, leastForce);
  let iterations = 0;
  const finish = (status: MinimiseStatus): MinimiseResult => ({ status, residual, energy: walk.energy, iterations, evaluations: walk.evaluations });

  const compass = createCompass(walk, history, preconditioner, renewEvery);
  const isAtRest = watchLengths(positions, options.lengths);
  while (residual > tolerance || !isAtRest(iterations)) {
    if (residual === 0) break;
    if (!Number.isFinite(walk.energy)) return finish('stalled');
    if (iterations >= maxIterations) return finish('budget');
    yield;
    if (options.isCancelled?.() === true) return finish('cancelled');
    const isNewton = compass.point(residual > newtonAbove, iterations);
    const slope = dot(walk.step, walk.gradient);
    const energy = slope < 0 ? searchLine(walk, slope, longestMove) : null;
    if (energy === null) {
      if (isNewton) { compass.endNewton(); continue; }
      if (history.size() === 0) return finish(residual <= tolerance ? 'converged' : 'stalled');
      history.clear();
      continue;
    }
    if (!isNewton) history.push(positions, walk.trial, walk.gradient, walk.trialGradient);
    positions.set(walk.trial);
    walk.gradient.set(walk.trialGradient);
    walk.energy = energy;
    iterations++;
    residual = measureResidual(walk, leastForce);
    if (iterations % progressEvery === 0) options.onProgress?.(positions, residual, iterations);
  }
  // A residual that is no number compares false with everything.
  return finish(residual <= tolerance ? 'converged' : 'stalled');
}

/** Tells a walk where to go next. */
interface Compass {
  /** Writes the step: Newton's if it is wanted and may still be had, else by the history. Returns which. */
  point(wantsNewton: boolean, iteration: number): boolean;
  /** Newton's steps lead nowhere from here. */
  endNewton(): void;
}

function createCompass({ positions, step, gradient }: Walk, history: History, preconditioner: Preconditioner, renewEvery: number): Compass {
  let renewedAt = -Infinity, newtonLeft = preconditioner.solveInto === undefined ? 0 : MOST_NEWTON_STEPS;
  return {
    point(wantsNewton, iteration) {
      const isNewton = wantsNewton && newtonLeft-- > 0;
      if (isNewton || iteration - renewedAt >= renewEvery) {
        preconditioner.renew?.(positions);
        renewedAt = iteration;
      }
      if (!isNewton) { history.directionInto(step, gradient, preconditioner); return false; }
      preconditioner.solveInto?.(step, gradient, UNMET_SHARE);
      for (let i = 0; i < step.length; i++) step[i] = -step[i];
      return true;
    },
    endNewton() { newtonLeft = 0; },
  };
}

/** Asked once an iteration: have the lengths stayed what they are for long enough? A start at rest has moved nowhere. */
function watchLengths(positions: Float64Array, lengths: MinimiseOptions['lengths']): (iteration: number) => boolean {
  if (lengths === undefined) return () => true;
  let kept = lengths(positions), since = 0;
  return (iteration) => {
    if (iteration === 0) return true;
    const now = lengths(positions);
    if (now.some((length, k) => Math.abs(length - kept[k]) > LENGTH_CHANGE * Math.abs(kept[k]))) { kept = now; since = iteration; }
    return iteration - since >= LENGTH_STEPS;
  };
}

/** Edge forces are those of the last evaluation, which is the point just moved to. */
function measureResidual({ terms, gradient }: Walk, leastForce: number): number {
  let sum = 0, count = 0;
  for (const term of terms) {
    const forces = term.edgeForces?.();
    if (forces === undefined) continue;
    sum += forces.sum;
    count += forces.count;
  }
  const force = Math.max(leastForce, count > 0 ? sum / count : 0);
  return Math.sqrt(3 * dot(gradient, gradient) / gradient.length) / (force > 0 ? force : 1);
}
