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
 *   courses, and are 3 to 8 times stiffer at 17 % strain (published ranges): 25 and 50 N/m,
 *   stiffening 40 (4.1 times at 17 %).
 * - Coupling: at constant loop length Peirce's formula (Text. Res. J. 17 (1947) 123-147) gives
 *   2 dp = -dw, a coupling of a / 2b = 0.7 at usual gauges if no yarn slips; 0.3 `chosen by eye`.
 * - Shear 4 N/m: `chosen by eye`. In compression cloth carries a little (up to 1.5 % of strain times
 *   the modulus), then gathers: 1 % of the stiffness beyond 3 %; crushing 0.5 keeps cells open.
 *   `chosen by eye`: smooth heels and throats, flat girths within 2 %.
 * - Bending: plain knits of sock weight bend at about 0.05 to 0.3 gf cm^2/cm, 0.005 to 0.03 N mm
 *   (`from memory`).
 * - Thickness: about two yarn diameters (Peirce, same paper), 0.9 mm each for 238 tex wool.
 */
export const SOCK_CLOTH: Cloth = {
  law: {
    courseModulus: 0.025, waleModulus: 0.05, coupling: 0.3, shearModulus: 0.004,
    compression: 0.01, softness: 0.03, stiffening: 40, crushing: 0.5,
  },
  courseBending: 0.015,
  waleBending: 0.02,
  thicknessMm: 1.8,
};

/** Inner pressure of the tube pose, N/mm^2: hoop strain p r / k1 about 0.7 % at a radius of 38 mm. */
export const TUBE_PRESSURE = 4.5e-6;

/** Stiffness of the mid-plane and the plates against each vertex, N/mm. `chosen by eye`: cloth gives way by less than its own thickness. */
export const PLATE_STIFFNESS = 0.006;

/** Share of its rest area that a cell keeps as seen through the plates, and the stiffness against less, N/mm. `chosen by eye`. */
export const LEAST_LAYER_SHARE = 0.3;
export const LAYER_STIFFNESS = 0.02;

/** Share of the bending stiffness that is left across the folds of a sock laid flat: cloth that lies folded takes a set. `chosen by eye`: girths stay within 1 %. */
export const FOLD_SET = 0.05;

/** Half the breadth of cloth that the fold has set, mm. `chosen by eye`. */
export const FOLD_WIDTH_MM = 10;

/** Distance of each plate from the mid-plane, mm: room for a toe that keeps some of its roundness. `chosen by eye`. */
export const PLATE_GAP_MM = 4;

/**
 * Pressure of the hand that pats a sock flat, N/mm^2: about five times the weight of the cloth
 * (300 g/m^2 is 3e-6 N/mm^2). `chosen by eye`.
 */
export const PRESS = 1e-5;
