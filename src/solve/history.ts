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
      const slotOf = (back: number): number => (head - back + memory) % memory;
      direction.set(gradient);
      let product = count > 0 ? dot(steps[slotOf(1)], direction) : 0;
      for (let back = 1; back <= count; back++) {
        const slot = slotOf(back);
        alpha[slot] = inverseCurvature[slot] * product;
        product = addThenDot(direction, changes[slot], -alpha[slot], steps[slotOf(back < count ? back + 1 : back)]);
      }
      preconditioner.applyInto(direction, direction);
      if (count > 0) product = dot(changes[slotOf(count)], direction);
      for (let back = count; back >= 1; back--) {
        const slot = slotOf(back), beta = inverseCurvature[slot] * product;
        product = addThenDot(direction, steps[slot], alpha[slot] - beta, changes[slotOf(back > 1 ? back - 1 : back)]);
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

/** out += factor x, and the product of the result with `next`: one walk over the arrays in place of two. */
function addThenDot(out: Float64Array, x: Float64Array, factor: number, next: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < out.length; i++) {
    const value = out[i] + factor * x[i];
    out[i] = value;
    sum += value * next[i];
  }
  return sum;
}
