/**
 * An orthotropic cloth law over the stretches along two material directions, called course and
 * wale after the cloth it was made for. With strains e1 = |x_s| - 1, e2 = |x_t| - 1 (x_s, x_t:
 * derivatives of the position along the material axes) and the shear g = x_s . x_t, the energy
 * per area is
 *
 *     k1 f(e1) + k2 f(e2 + nu e1) + G g^2 / 2
 *
 * where f is a strain energy that is nearly quadratic in tension, softer in compression, and stiffens
 * far out on both sides (see `strainEnergy`). It is a sum of convex functions of linear forms in
 * (e1, e2, g). The middle term is the coupling: cloth drawn wide wants to be short.
 */
export interface MembraneLaw {
  /** k1, N/mm: modulus along courses with wales free to shorten, once drawn taut; at rest it is (1 + compression) / 2 of that. */
  readonly courseModulus: number;
  /** k2, N/mm: modulus along wales at fixed width. */
  readonly waleModulus: number;
  /** nu: strain along wales that the cloth wants for each strain along courses, sign turned. */
  readonly coupling: number;
  /** G, N/mm. */
  readonly shearModulus: number;
  /** Stiffness in compression over that in tension, in (0, 1]. At 1 the curve is linear. */
  readonly compression: number;
  /** Strain over which the one passes into the other: loose loops are drawn taut, and cloth carries a little before it gathers. */
  readonly softness: number;
  /** Tension adds 3 stiffening e^2 to the tangent. */
  readonly stiffening: number;
  /** Compression adds 3 crushing e^2: an element does not collapse. */
  readonly crushing: number;
  /** Stretch below which a triangle loses its direction gradually: pressed to nothing along an axis it would have a cusp there, about which a minimiser bounces. Default 0. */
  readonly bluntness?: number;
}

/** Constants of f, picked out once so that kernels read plain numbers. */
export interface StrainCurve {
  readonly compression: number;
  readonly softness: number;
  readonly stiffening: number;
  readonly crushing: number;
}

/**
 * With r = sqrt(e^2 + d^2), tension p = (r + e) / 2 and compression m = (r - e) / 2 (so e = p - m,
 * and either fades where the other rules):
 *
 *     f(e) = p^2 / 2 + c m^2 / 2 + stiffening p^4 / 4 + crushing m^4 / 4 - f1 e - f0
 *
 * f1 and f0 are such that f(0) = f'(0) = 0. Smooth and convex, without a branch; f'' runs from c far
 * in compression over (1 + c) / 2 at rest to 1 in tension, and on with the quartic terms.
 */
export function strainEnergy(e: number, curve: StrainCurve): number {
  const c = curve.compression, d = curve.softness, s = curve.stiffening, k = curve.crushing;
  const r = Math.sqrt(e * e + d * d), h = 0.25 * d * d, pp = 0.25 * (r + e) * (r + e), mm = 0.25 * (r - e) * (r - e);
  // p^2 + m^2 = e^2 + 2 h and p^2 - m^2 = e r: so written, nothing cancels near rest.
  return 0.25 * e * e * (1 + c + (1 - c) * e / (r + d)) + 0.25 * (s * (pp * pp - h * h) + k * (mm * mm - h * h)) - 0.25 * d * (s - k) * h * e;
}

/** f'(e). */
export function strainForce(e: number, curve: StrainCurve): number {
  const c = curve.compression, d = curve.softness, s = curve.stiffening, k = curve.crushing;
  const r = Math.sqrt(e * e + d * d), h = 0.25 * d * d, pp = 0.25 * (r + e) * (r + e), mm = 0.25 * (r - e) * (r - e);
  const q = 0.25 * (1 - c) * e * e;
  return 0.5 * (1 + c) * e + q / (r + d) + (q + s * pp * pp - k * mm * mm) / r - 0.25 * d * (s - k) * h;
}

/** f''(e): never negative. */
export function strainStiffness(e: number, curve: StrainCurve): number {
  const c = curve.compression, d = curve.softness, s = curve.stiffening, k = curve.crushing;
  const r = Math.sqrt(e * e + d * d), p = 0.5 * (r + e), m = 0.5 * (r - e);
  const pp = p * p, mm = m * m;
  return (2 * (pp * (1 + 2 * s * pp) + mm * (c + 2 * k * mm)) - (pp * (1 + s * pp) - mm * (c + k * mm)) * e / r) / (r * r);
}
