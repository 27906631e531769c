import { dot } from './line-search.ts';

/** out = what an operator makes of `from`; they are never one array here. */
export type Operator = (out: Float64Array, from: Float64Array) => void;

/**
 * Conjugate gradients for A x = b from x = 0, preconditioned (Hestenes & Stiefel, J. Res. Natl. Bur.
 * Stand. 49 (1952) 409-436): ends when the rest b - A x is smaller than `share` of b, or after `most`
 * steps. A and the preconditioner must be symmetric and positive definite; `x` may be `b`.
 */
export function createConjugateGradients(length: number, multiplyInto: Operator, preconditionInto: Operator): (x: Float64Array, b: Float64Array, share: number, most: number) => void {
  const rest = new Float64Array(length), way = new Float64Array(length), image = new Float64Array(length), near = new Float64Array(length);
  return (x, b, share, most) => {
    const enough = share * share * dot(b, b);
    rest.set(b);
    x.fill(0);
    let left = Infinity, before = 1;
    for (let k = 0; k < most && left > enough; k++) {
      preconditionInto(near, rest);
      const product = dot(rest, near), beta = k === 0 ? 0 : product / before;
      if (!(product > 0)) return;
      for (let i = 0; i < length; i++) way[i] = near[i] + beta * way[i];
      multiplyInto(image, way);
      const alpha = product / dot(way, image);
      left = 0;
      for (let i = 0; i < length; i++) {
        x[i] += alpha * way[i];
        const value = rest[i] - alpha * image[i];
        rest[i] = value;
        left += value * value;
      }
      before = product;
    }
  };
}
