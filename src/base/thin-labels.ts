/** A label on a scale: where its middle is, half the room it takes, and how much it matters. */
export interface ScaleLabel { readonly at: number; readonly half: number; readonly strength: number }

/** Which labels of a scale are shown so that none lies over another: the strongest first, of equals the earlier. Of a strength too close for most, none. */
export function thinLabels(labels: readonly ScaleLabel[]): boolean[] {
  const shown = labels.map(() => false), placed: ScaleLabel[] = [];
  const strengths = [...new Set(labels.map(({ strength }) => strength))].sort((a, b) => b - a);
  for (const strength of strengths) {
    const ofStrength = labels.flatMap((label, i) => (label.strength === strength ? [i] : []));
    const before = placed.length;
    for (const i of ofStrength) {
      if (placed.some((other) => Math.abs(other.at - labels[i].at) < other.half + labels[i].half)) continue;
      placed.push(labels[i]);
      shown[i] = true;
    }
    if (2 * (placed.length - before) >= ofStrength.length) continue;
    // A number here and there would be read as a rule that is none.
    if (strength < strengths[0]) for (const i of ofStrength) shown[i] = false;
    return shown;
  }
  return shown;
}
