/** Next number of a seeded stream, uniform in [0, 1). */
export type Random = () => number;

/**
 * Mulberry32 (T. Ettinger, 2017, public domain; from memory): a 32-bit counter with an increment
 * near the golden ratio, mixed by two multiplications. Period 2^32: enough for noise and for
 * tests, not for statistics of many billions. The same seed gives the same stream everywhere.
 */
export function createRandom(seed: number): Random {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 0x1_0000_0000;
  };
}

/** Whole number from `low` to `high`, both included. */
export function randomWhole(random: Random, low: number, high: number): number {
  return low + Math.floor(random() * (high - low + 1));
}

/** One of a list that is not empty. */
export function randomPick<T>(random: Random, list: readonly T[]): T {
  return list[Math.floor(random() * list.length)];
}
