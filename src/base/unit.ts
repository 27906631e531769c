export const MM_PER_CM = 10;
/** Exact by definition (international yard and pound agreement, 1959). */
export const MM_PER_INCH = 25.4;

export const mmToInch = (mm: number): number => mm / MM_PER_INCH;
export const inchToMm = (inch: number): number => inch * MM_PER_INCH;

/** Gauge as files give it (in 10 cm) to gauge as kernels use it (per mm), and per inch. */
export const per10cmToPerMm = (count: number): number => count / 100;
export const perInchToPer10cm = (count: number): number => (count * 100) / MM_PER_INCH;
export const per10cmToPerInch = (count: number): number => (count * MM_PER_INCH) / 100;

/** At most `digits` decimals, trailing zeros dropped: 66.40 is `66.4`. Never `-0`. */
export function formatNumber(value: number, digits: number): string {
  const rounded = Number(value.toFixed(digits));
  return String(rounded === 0 ? 0 : rounded);
}

/** Thousands set off by commas: 8440 is `8,440`. */
export function formatCount(count: number): string {
  return String(count).replace(/\B(?=(?:\d{3})+$)/g, ',');
}
