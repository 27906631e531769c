import type { MembraneLaw } from '../solve/index.ts';

/** What the cloth of a sock is made of, as its shape feels it. */
export interface Cloth {
  readonly law: MembraneLaw;
  /** Bending stiffness about the wales (bending of courses) and about the courses, N mm. */
  readonly courseBending: number;
  readonly waleBending: number;
  /** mm. */
  readonly thicknessMm: number;
}

/**
 * Plain knitting in a sock yarn.
 * - Moduli: plain knits carry 17 to 65 N/m at rest, about twice as much along wales as along
 *   courses, and are 3 to 8 times stiffer at 17 % strain (published ranges): 18 and 36 N/m at rest,
 *   twice that once taut (4 % of strain), stiffening 30 (7 times the rest's at 17 %).
 * - Coupling: at constant loop length Peirce's formula (Text. Res. J. 17 (1947) 123-147) gives
 *   2 dp = -dw, a coupling of a / 2b = 0.7 at usual gauges if no yarn slips; 0.3 `chosen by eye`.
 * - Shear 5 N/m: `chosen by eye`. In compression cloth carries a little (1 % of strain times the
 *   modulus), then gathers, at 1 % of the stiffness; crushing 0.5 keeps cells open. `chosen by eye`:
 *   smooth heels and throats.
 * - Bending: plain knits of sock weight bend at about 0.05 to 0.3 gf cm^2/cm, 0.005 to 0.03 N mm
 *   (`from memory`).
 * - Thickness: about two yarn diameters (Peirce, same paper), 0.9 mm each for 238 tex wool.
 */
export const SOCK_CLOTH: Cloth = {
  law: {
    courseModulus: 0.035, waleModulus: 0.07, coupling: 0.3, shearModulus: 0.005,
    compression: 0.01, softness: 0.04, stiffening: 30, crushing: 0.5,
  },
  courseBending: 0.015,
  waleBending: 0.02,
  thicknessMm: 1.8,
};

/**
 * How firm a cloth is: factors on all moduli and on bending, with the curve that they share left alone.
 * Plain knits carry 17 to 65 N/m at rest, about twice as much along wales as along courses (published
 * ranges). At rest, along courses and along wales, that makes soft 18 and 36 N/m, medium 24 and 49,
 * firm 32 and 63; a tenth softer or firmer, and one of them would leave the range. A firm cloth and a soft one have
 * the same shape wherever only the cloth's own forces act (laid flat); pressure and weights move
 * the firm one less.
 */
export const FIRMNESS = { soft: 1, medium: 1.35, firm: 1.75 } as const;
export type Firmness = keyof typeof FIRMNESS;

/** A law with its moduli changed to a firmness. */
export function firmLaw(law: MembraneLaw, firmness: Firmness): MembraneLaw {
  const factor = FIRMNESS[firmness];
  return { ...law, courseModulus: factor * law.courseModulus, waleModulus: factor * law.waleModulus, shearModulus: factor * law.shearModulus };
}

/** Sock cloth of a firmness. */
export function clothOf(firmness: Firmness): Cloth {
  const factor = FIRMNESS[firmness];
  return {
    ...SOCK_CLOTH, law: firmLaw(SOCK_CLOTH.law, firmness),
    courseBending: factor * SOCK_CLOTH.courseBending, waleBending: factor * SOCK_CLOTH.waleBending,
  };
}

/**
 * Inner pressure of the tube pose, N/mm^2: as a soft filling would round it, 0.08 mmHg. Hoop strain
 * p r over the modulus is about 1.5 % at a radius of 38 mm. `measured`: at half of it the instep has
 * several creased shapes of nearly one energy; from this on a sock ends in one. It is the same for
 * a firm cloth, which it rounds less: the leg folds further towards the foot (`measured`: 58 degrees
 * for the 65 of soft cloth; the socks tried all come to rest in one shape).
 */
export const TUBE_PRESSURE = 1e-5;

/** Stiffness of planes and facing cloth against each vertex, N/mm. `chosen by eye`: cloth gives way by less than its own thickness. */
export const PLATE_STIFFNESS = 0.006;

/** Share of its rest area that a cell keeps as seen through the plates, and the stiffness against less, N/mm. `chosen by eye`. */
export const LEAST_LAYER_SHARE = 0.3;
export const LAYER_STIFFNESS = 0.02;
