import type { Plan } from '../plan/plan-types.ts';

/** Wool of sock yarns, g/cm^3 (published: Peirce F. T., Text. Res. J. 17 (1947) 123-147, packing relation d (cm) = 4.44e-3 sqrt(tex / density)). */
const WOOL_DENSITY = 1.31;
const PACKING = 4.44e-3;
/** Courses lie two yarns apart when they jam: the heads of one row and the feet of the next, side by side (geometry of the loop; not measured). */
const JAMMED_YARNS = 2;
/** Kept within what knitted loops do, whatever the yarn's number says; `chosen by eye`. */
const LEAST_OPENING = 1.2, MOST_OPENING = 2.2;

/** Diameter of a yarn, mm. */
export function yarnDiameterMm(metresPer100g: number): number {
  const tex = 1e5 / metresPer100g;
  return 10 * PACKING * Math.sqrt(tex / WOOL_DENSITY);
}

/**
 * How far a plain knit opens in width, as a share of its width at rest, before its loops jam. By Peirce's
 * loop, l = 2 p + w + 5.94 d (p course spacing, w wale spacing, d yarn diameter), at constant loop length
 * w grows by twice what p gives up, until courses jam at p = 2 d: 1 + 2 (p - 2 d) / w. A 1x1 rib is
 * made of the same loops: it unfolds to the width of plain knitting first and then opens as far.
 * An upper bound by geometry: friction and the yarn's stiffness stop a hand sooner.
 */
export function findOpening({ stitchesPerMm, rowsPerMm, yarns }: Pick<Plan, 'stitchesPerMm' | 'rowsPerMm' | 'yarns'>): number {
  const d = Math.max(...yarns.map(({ metresPer100g }) => yarnDiameterMm(metresPer100g)));
  const opening = 1 + 2 * (1 / rowsPerMm - JAMMED_YARNS * d) * stitchesPerMm;
  return Math.min(MOST_OPENING, Math.max(LEAST_OPENING, opening));
}
