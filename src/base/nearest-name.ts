/**
 * Number of single-letter insertions, removals, replacements and swaps of neighbours that turn `a`
 * into `b` (optimal string alignment, after Damerau, Commun. ACM 7 (1964) 171-176).
 */
export function editDistance(a: string, b: string): number {
  const width = b.length + 1;
  const table = new Int32Array((a.length + 1) * width);
  for (let i = 0; i <= a.length; i++) table[i * width] = i;
  for (let j = 0; j <= b.length; j++) table[j] = j;
  for (let i = 1; i <= a.length; i++) {
    for (let j = 1; j <= b.length; j++) {
      const here = i * width + j;
      const isSame = a[i - 1] === b[j - 1];
      let best = Math.min(
        table[here - width] + 1,
        table[here - 1] + 1,
        table[here - width - 1] + (isSame ? 0 : 1),
      );
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        best = Math.min(best, table[here - 2 * width - 2] + 1);
      }
      table[here] = best;
    }
  }
  return table[a.length * width + b.length];
}

/** Longer names than this are no slip of the fingers; comparing them would only cost time. */
const LONGEST_NAME = 40;

/** The entry whose name is nearest to a mistyped one, or null when none is near. Case is ignored. */
export function nearestName<T extends { readonly name: string }>(typed: string, known: readonly T[]): T | null {
  if (typed.length > LONGEST_NAME) return null;
  const wanted = typed.toLowerCase();
  let nearest: T | null = null;
  let least = Math.max(2, Math.floor(typed.length / 3)) + 1;
  for (const entry of known) {
    const distance = editDistance(wanted, entry.name.toLowerCase());
    // A name of three letters is two slips away from everything.
    if (distance < least && distance < entry.name.length) {
      nearest = entry;
      least = distance;
    }
  }
  return nearest;
}
