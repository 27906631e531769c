/** A label on a scale: where its middle is, half the room it takes, and how much it matters. */
export interface ScaleLabel { readonly at: number; readonly half: number; readonly strength: number }

/** Of labels that no stronger one covers, so many must find room beside each other for any of them to be shown: where two meet by chance, as at a seam, one may go. Chosen by eye. */
const MOST = 0.85;

/**
 * Which labels of a scale are shown so that none lies over another: of the strongest as many as find room, the earlier first; of each weaker
 * kind nearly all or none, for a number here and there would be read as a rule that is none.
 */
export function thinLabels(labels: readonly ScaleLabel[]): boolean[] {
  const shown = labels.map(() => false), placed: ScaleLabel[] = [];
  const isCovered = (label: ScaleLabel): boolean => placed.some((other) => Math.abs(other.at - label.at) < other.half + label.half);
  const strengths = [...new Set(labels.map(({ strength }) => strength))].sort((a, b) => b - a);
  for (const strength of strengths) {
    const own = labels.flatMap((label, i) => (label.strength === strength ? [i] : [])), free = own.filter((i) => !isCovered(labels[i]));
    const before = placed.length;
    for (const i of free) {
      if (isCovered(labels[i])) continue;
      placed.push(labels[i]);
      shown[i] = true;
    }
    if (strength === strengths[0] || (2 * free.length >= own.length && placed.length - before >= MOST * free.length)) continue;
    for (const i of own) shown[i] = false;
    return shown;
  }
  return shown;
}
