/**
 * Whole numbers that add up to the rounded sum: each part is rounded down, and what is then missing goes to
 * those that lost most, of equals to the first. So a list and its total say the same, on every card.
 */
export function wholeParts(parts: readonly number[]): number[] {
  const whole = parts.map(Math.floor), lost = (at: number): number => parts[at] - whole[at];
  const missing = Math.round(sumOf(parts)) - sumOf(whole);
  const places = parts.map((_part, at) => at).sort((a, b) => lost(b) - lost(a) || a - b);
  for (const at of places.slice(0, missing)) whole[at] += 1;
  return whole;
}

export function sumOf(parts: readonly number[]): number {
  return parts.reduce((sum, part) => sum + part, 0);
}
