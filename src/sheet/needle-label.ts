/** How needles are counted: from the middle of the bed to either side, or from its left end. */
export type NeedleNumbers = 'middle' | 'left';

/** What a knitter calls a needle (1-based from the left end): `L12`, `R3`; `0` for the middle one of an odd bed; or its number from the left end. */
export function labelNeedle(needle: number, needlesPerBed: number, numbers: NeedleNumbers): string {
  if (numbers === 'left') return String(needle);
  const half = Math.floor(needlesPerBed / 2), isOdd = needlesPerBed % 2 === 1;
  if (isOdd && needle === half + 1) return '0';
  return needle <= half ? `L${half + 1 - needle}` : `R${needle - half - (isOdd ? 1 : 0)}`;
}
