import type { ArchKind, FootSide, ToeOutline } from '../foot/foot-kinds.ts';
import type { ShoeSystem } from '../foot/shoe-size.ts';

export type { ShoeSystem };
export type { ArchKind, FootSide, ToeOutline };

/** Beds are named from the knitter's place: front is nearer to her. */
export type Bed = 'front' | 'back';

/** Of the knitted cloth, against being stretched and bent. */
export type Firmness = 'soft' | 'medium' | 'firm';

/** Where in the sock a yarn begins. */
export type YarnStart = 'leg' | 'ankle' | 'heel' | 'foot' | 'toe';

/** Stitches and rows counted over a measured patch. */
export interface SwatchCount {
  readonly stitches: number;
  readonly widthMm: number;
  readonly rows: number;
  readonly heightMm: number;
  /** Counted after washing and rest. */
  readonly washed?: boolean;
}

/** A stretch of a decreased toe: so many decreases, each followed by so many passes. */
export interface ToeRate { readonly passes: number; readonly times: number }

export interface YarnChoice {
  readonly name?: string;
  readonly metresPer100g?: number;
  /** `#rgb` or `#rrggbb`. */
  readonly colour?: string;
  readonly from?: YarnStart;
  /**
   * Several yarns with the same `from` take turns, each for this many passes (even, so that the
   * carriage is at the yarn's side again). Without it the first of them knits on alone.
   */
  readonly stripePasses?: number;
}

/** A person's sock file, as saved: see the README for units, limits and defaults. */
export interface SockFile {
  readonly heelwright?: 1;
  readonly name?: string;
  readonly gauge: {
    readonly stitchesPer10cm: number;
    readonly rowsPer10cm: number;
    /** Relaxed width of the 1x1 rib over that of plain knitting at the same stitch count. */
    readonly ribWidthFactor?: number;
    /** Patches that were counted; the gauge above is what holds, whether it came from them or not. */
    readonly swatches?: readonly SwatchCount[];
  };
  readonly foot?: {
    readonly lengthMm?: number;
    readonly shoeSize?: { readonly system: ShoeSystem; readonly value: number };
    readonly ballGirthMm?: number;
    readonly heelDiagonalMm?: number;
    readonly ankleGirthMm?: number;
    readonly calfGirthMm?: number;
    readonly heelBreadthMm?: number;
    readonly arch?: ArchKind;
    /** Outline of the toes, taken together. */
    readonly toes?: ToeOutline;
    readonly side?: FootSide;
  };
  readonly ease?: { readonly girthPercent?: number; readonly lengthPercent?: number };
  readonly leg?: {
    readonly kind?: 'flat-rib' | 'tube';
    readonly lengthMm?: number;
    readonly gatherBed?: Bed;
  };
  readonly heel?: {
    /** Stitches that the heel is turned on, where these are more than half: the others are moved there and back. */
    readonly stitches?: number;
    readonly turnDownWidth?: number;
    readonly plateauPasses?: number;
    readonly wraps?: boolean;
  };
  readonly toe?: {
    readonly kind?: 'decreased' | 'short-row';
    readonly passesPerDecrease?: number;
    /** Rates of decreasing, one after the other, in place of `passesPerDecrease`. */
    readonly schedule?: readonly ToeRate[];
    /** By so many stitches a bed the toe is decreased more on the side of the little toe than on that of the great toe. */
    readonly slantStitches?: number;
    readonly tipStitches?: number;
    readonly closing?: 'graft' | 'bind-off';
  };
  readonly cloth?: {
    /** How stiff the yarn and a tight gauge make the cloth; no count and no size at rest changes. */
    readonly firmness?: Firmness;
  };
  readonly counts?: {
    readonly stitches?: number;
    readonly legPasses?: number;
    readonly anklePasses?: number;
    readonly footPasses?: number;
  };
  readonly yarns?: readonly YarnChoice[];
  readonly machine?: { readonly needlesPerBed?: number; readonly needlePitchMm?: number };
}
