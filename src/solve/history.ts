import { dot } from './line-search.ts';
import type { Preconditioner } from './preconditioner.ts';

/** The last steps of a quasi-Newton minimiser and what they did to the gradient. */
export interface History {
  /** direction = -H gradient by the two-loop recursion, with the preconditioner as initial metric. */
  directionInto(direction: Float64Array, gradient: Float64Array, preconditioner: Preconditioner): void;
  /** Keeps the step from one point to the next; leaves it out where the energy curves down along it. */
  push(from: Float64Array, to: Float64Array, gradientFrom: Float64Array, gradientTo: Float64Array): void;
  clear(): void;
  size(): number;
}

/** Least curvature s.y / (|s| |y|) that a step may have to be kept. */
const LEAST_CURVATURE = 1e-10;

export function createHistory(length: number, memory: number): History {
  const steps = Array.from({ length: memory }, () => new Float64Array(length));
  const changes = Array.from({ length: memory }, () => new Float64Array(length));
  const inverseCurvature = new Float64Array(memory), alpha = new Float64Array(memory);
  let count = 0, head = 0;

  return {
    directionInto(direction, gradient, preconditioner) {
      direction.set(gradient);
      for (let k = 1; k <= count; k++) {
        const slot = (head - k + memory) % memory;
        alpha[slot] = inverseCurvature[slot] * dot(steps[slot], direction);
        addScaled(direction, changes[slot], -alpha[slot]);
      }
      preconditioner.applyInto(direction, direction);
      for (let k = count; k >= 1; k--) {
        const slot = (head - k + memory) % memory;
        const beta = inverseCurvature[slot] * dot(changes[slot], direction);
        addScaled(direction, steps[slot], alpha[slot] - beta);
      }
      for (let i = 0; i < length; i++) direction[i] = -direction[i];
    },
    push(from, to, gradientFrom, gradientTo) {
      const s = steps[head], y = changes[head];
      let sy = 0, ss = 0, yy = 0;
      for (let i = 0; i < length; i++) {
        const si = to[i] - from[i], yi = gradientTo[i] - gradientFrom[i];
        s[i] = si; y[i] = yi;
        sy += si * yi; ss += si * si; yy += yi * yi;
      }
      if (!(sy > LEAST_CURVATURE * Math.sqrt(ss * yy))) return;
      inverseCurvature[head] = 1 / sy;
      head = (head + 1) % memory;
      count = Math.min(count + 1, memory);
    },
    clear() { count = 0; },
    size: () => count,
  };
}

function addScaled(out: Float64Array, x: Float64Array, factor: number): void {
  for (let i = 0; i < out.length; i++) out[i] += factor * x[i];
}
