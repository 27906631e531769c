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
 *   courses, and are 3 to 8 times stiffer at 17 % strain (published ranges): 18 and 35 N/m at rest,
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
 * Inner pressure of the tube pose, N/mm^2: as a soft filling would round it, 0.08 mmHg. Hoop strain
 * p r over the modulus is about 1.5 % at a radius of 38 mm. `measured`: at half of it the instep has
 * several creased shapes of nearly one energy; from this on a sock ends in one.
 */
export const TUBE_PRESSURE = 1e-5;

/** Stiffness of planes and facing cloth against each vertex, N/mm. `chosen by eye`: cloth gives way by less than its own thickness. */
export const PLATE_STIFFNESS = 0.006;

/** Share of its rest area that a cell keeps as seen through the plates, and the stiffness against less, N/mm. `chosen by eye`. */
export const LEAST_LAYER_SHARE = 0.3;
export const LAYER_STIFFNESS = 0.02;
