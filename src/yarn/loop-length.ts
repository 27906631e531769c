/**
 * Stitch density times loop length squared of plain knitting, fully relaxed (Munden D. L.,
 * J. Text. Inst. 50 (1959) T448-T471, and textbook tables after it; lengths in cm).
 */
const MUNDEN_KS = 23.1;

/** Loop length (mm) of a plain fabric that relaxes to this many stitches and rows in a centimetre. */
export function findLoopLength(stitchesPerCm: number, rowsPerCm: number): number {
  return 10 * Math.sqrt(MUNDEN_KS / (stitchesPerCm * rowsPerCm));
}

/** Loop length (mm) by Peirce's geometry: l = 2 p + w + 5.94 d, of courses p apart and wales w apart, the yarn d thick (Text. Res. J. 17 (1947) 123-147). */
export function peirceLoopLength(waleMm: number, courseMm: number, diameterMm: number): number {
  return 2 * waleMm + courseMm + 5.94 * diameterMm;
}
