/**
 * An orthotropic cloth law over the stretches along two material directions, called course and
 * wale after the cloth it was made for. With strains e1 = |x_s| - 1, e2 = |x_t| - 1 (x_s, x_t:
 * derivatives of the position along the material axes) and the shear g = x_s . x_t, the energy
 * per area is
 *
 *     k1 f(e1) + k2 f(e2 + nu e1) + G g^2 / 2
 *
 * where f is a strain energy that is quadratic in tension, softer in compression, and stiffens far
 * out on both sides (see `strainEnergy`). It is a sum of convex functions of linear forms in
 * (e1, e2, g). The middle term is the coupling: cloth drawn wide wants to be short.
 */
export interface MembraneLaw {
  /** k1, N/mm: modulus along courses with wales free to shorten. */
  readonly courseModulus: number;
  /** k2, N/mm: modulus along wales at fixed width. */
  readonly waleModulus: number;
  /** nu: strain along wales that the cloth wants for each strain along courses, sign turned. */
  readonly coupling: number;
  /** G, N/mm. */
  readonly shearModulus: number;
  /** Stiffness in compression over that in tension, in (0, 1]. */
  readonly compression: number;
  /** Compressive strain over which the one passes into the other: cloth carries a little before it buckles. */
  readonly softness: number;
  /** Tangent stiffness in tension is multiplied by 1 + 3 stiffening e^2. */
  readonly stiffening: number;
  /** In compression the tangent grows by 3 crushing e^2 of the tension's: an element does not collapse. */
  readonly crushing: number;
}

/** Constants of f, picked out once so that kernels read plain numbers. */
export interface StrainCurve {
  readonly compression: number;
  readonly softness: number;
  readonly stiffening: number;
  readonly crushing: number;
}

/**
 * f(e): second derivative 1 for e >= 0, c for e <= -d, linear between (so f is C2 and convex), plus
 * (stiffening / 4) e^4 in tension and (crushing / 4)(e + d)^4 below -d; f(0) = f'(0) = 0.
 */
export function strainEnergy(e: number, curve: StrainCurve): number {
  if (e >= 0) return e * e * (0.5 + 0.25 * curve.stiffening * e * e);
  const c = curve.compression, d = curve.softness;
  if (e >= -d) return e * e * (0.5 + (1 - c) / 6 * e / d);
  const u = e + d;
  return d * d * (2 + c) / 6 - d * (1 + c) / 2 * u + u * u * (0.5 * c + 0.25 * curve.crushing * u * u);
}

/** f'(e). */
export function strainForce(e: number, curve: StrainCurve): number {
  if (e >= 0) return e * (1 + curve.stiffening * e * e);
  const c = curve.compression, d = curve.softness;
  if (e >= -d) return e * (1 + (1 - c) / 2 * e / d);
  const u = e + d;
  return -d * (1 + c) / 2 + u * (c + curve.crushing * u * u);
}
