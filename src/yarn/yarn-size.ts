/** Density of sock yarn, g/cm3: three parts wool (1.31) to one part polyamide (1.14) (common practice, no source, for the parts; published, the densities). */
const FIBRE_DENSITY = 1.31 * 0.75 + 1.14 * 0.25;

/** Yarn packed as Peirce has it: d (cm) = 4.44e-3 sqrt(tex / density) (Peirce F. T., Text. Res. J. 17 (1947) 123-147). */
const PACKING = 4.44e-3;

/**
 * Yarn as it lies in a washed fabric over yarn packed as in Peirce's formula. Peirce's loop, l = 2 p + w + 5.94 d, is as long as
 * Munden's (13.5 mm at 30 x 42 in 10 cm) if d is 0.91 mm, where the packing of a yarn of 420 m in 100 g gives 0.61.
 */
const BLOOM = 1.5;

/** Thickness (mm) of a yarn packed tight. */
export function packedDiameterMm(metresPer100g: number): number {
  const tex = 1e5 / metresPer100g;
  return 10 * PACKING * Math.sqrt(tex / FIBRE_DENSITY);
}

/** Thickness (mm) of a yarn as it lies, fibres and air, in a washed fabric. */
export function yarnDiameterMm(metresPer100g: number): number {
  return BLOOM * packedDiameterMm(metresPer100g);
}
