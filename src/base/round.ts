/** Nearer than this to the middle counts as a tie, so that 0.1 x 665 is one; in units of the step. */
const TIE = 1e-9;

/** Nearest whole number, ties to the smaller one (the smaller sock). */
export function roundTiesDown(x: number): number {
  const below = Math.floor(x);
  return x - below <= 0.5 + TIE ? below : below + 1;
}

/** Nearest multiple of `m` (> 0), ties to the smaller one. */
export function nearestMultiple(x: number, m: number): number {
  return roundTiesDown(x / m) * m;
}

export function clamp(x: number, low: number, high: number): number {
  return Math.min(Math.max(x, low), high);
}
