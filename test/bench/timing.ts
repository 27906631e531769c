/** Median milliseconds of `runs` calls after `warmUps` that do not count. */
export function medianMs(work: () => void, runs: number, warmUps = 1): number {
  for (let i = 0; i < warmUps; i++) work();
  const times: number[] = [];
  for (let i = 0; i < runs; i++) {
    const begun = performance.now();
    work();
    times.push(performance.now() - begun);
  }
  return median(times);
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}

/** Exponent p of y = c x^p, by least squares on the logarithms. */
export function exponent(points: readonly (readonly [x: number, y: number])[]): number {
  const logs = points.map(([x, y]) => [Math.log(x), Math.log(y)] as const);
  const meanX = logs.reduce((sum, [x]) => sum + x, 0) / logs.length;
  const meanY = logs.reduce((sum, [, y]) => sum + y, 0) / logs.length;
  const covariance = logs.reduce((sum, [x, y]) => sum + (x - meanX) * (y - meanY), 0);
  const variance = logs.reduce((sum, [x]) => sum + (x - meanX) ** 2, 0);
  return covariance / variance;
}

/** Bytes of all typed arrays inside plain data, each buffer once. */
export function arrayBytes(value: unknown): number {
  const buffers = new Set<ArrayBufferLike>();
  const visit = (inner: unknown): void => {
    if (ArrayBuffer.isView(inner)) buffers.add(inner.buffer);
    else if (typeof inner === 'object' && inner !== null) Object.values(inner).forEach(visit);
  };
  visit(value);
  return [...buffers].reduce((sum, buffer) => sum + buffer.byteLength, 0);
}

const SIZE = 10_000;
const SWEEPS = 1000;

/**
 * The yardstick of every ratio: ten million steps of x += y (x - z) over flat arrays, which any
 * machine does at about the speed of its memory and its multiplier.
 */
export function createReferenceKernel(): () => void {
  const x = new Float64Array(SIZE).map((_, i) => i / SIZE);
  const y = new Float64Array(SIZE).map((_, i) => 0.25 + i / (4 * SIZE));
  const z = new Float64Array(SIZE).map((_, i) => 1 - i / SIZE);
  return () => {
    for (let sweep = 0; sweep < SWEEPS; sweep++) {
      for (let i = 0; i < SIZE; i++) x[i] += y[i] * (z[i] - x[i]);
      // The next sweep starts from other numbers, so none can be left out.
      z[sweep] = 1 - z[sweep];
    }
  };
}
