import type { EstimatedMeasures } from '../foot/estimate-measures.ts';
import type { FootMeasures } from '../foot/foot-measures.ts';
import type { ArchKind, Bed, Firmness, FootSide, ToeOutline, YarnStart } from './sock-file.ts';
import type { Side } from './step.ts';

export interface PlannedYarn {
  readonly name: string;
  readonly metresPer100g: number;
  /** Always `#rrggbb`. */
  readonly colour: string;
  readonly from: YarnStart;
  /** Null: knits on until another yarn starts. */
  readonly stripePasses: number | null;
}

/** Where a planned number comes from, to be shown beside it. */
export interface Derivation {
  /** Key of `Plan`. */
  readonly count: keyof Plan;
  readonly value: number;
  /** With its numbers filled in, e.g. `246 mm x 0.90 x 0.300 st/mm = 66.4, nearest multiple of 4`. */
  readonly formula: string;
  readonly isFixedByHand: boolean;
}

/** One decrease of a toe, and the passes knitted after it. `both`: at both ends of both beds, four stitches; `outer`: on the side of the little toe only, two. */
export interface ToeStep { readonly ends: 'both' | 'outer'; readonly passes: number }

/** Every count of a sock. All are whole numbers; see DEVELOPERS.md, glossary, for the letters. */
export interface Plan {
  readonly name: string;
  readonly stitchesPerMm: number;
  readonly rowsPerMm: number;
  readonly ribWidthFactor: number;
  /** N, stitches round the tube; a multiple of 4. */
  readonly stitches: number;
  /** N / 2. */
  readonly bedStitches: number;
  /** H, stitches that the heel is turned on; N / 2 unless more are moved to its bed, as many at each end. */
  readonly heelStitches: number;
  readonly legKind: 'flat-rib' | 'tube';
  /** Flat rib: rows; tube: two a round. The plain rows are not among them. */
  readonly legPasses: number;
  /** 2 after a flat rib leg, none after a tube. */
  readonly plainPasses: number;
  readonly gatherBed: Bed;
  /** The bed that knits the heel: the turned bed after a flat leg, the front bed after a tube. */
  readonly heelBed: Bed;
  readonly anklePasses: number;
  /** W. */
  readonly turnDownWidth: number;
  readonly plateauPasses: number;
  readonly heelWraps: boolean;
  /** 2 (H - W) + plateau. */
  readonly heelPasses: number;
  readonly footPasses: number;
  readonly toeKind: 'decreased' | 'short-row';
  /** k; kept but unused for a short-row toe and where the file has a schedule. What is knitted stands in `toeSteps`. */
  readonly passesPerDecrease: number;
  /** T, stitches a bed at the tip (short-row toe: its turn-down width). */
  readonly toeTipStitches: number;
  /** D, decrease events: those of `toeSteps`. 0 for a short-row toe. */
  readonly toeDecreases: number;
  /** So many of the decreases, the first ones, are on the side of the little toe only; kept but unused for a short-row toe. */
  readonly toeSlantStitches: number;
  readonly toeSteps: readonly ToeStep[];
  /** The end of both beds on which the sock's little toe lies. */
  readonly outerSide: Side;
  readonly toePasses: number;
  readonly closing: 'graft' | 'bind-off';
  readonly firmness: Firmness;
  readonly yarns: readonly PlannedYarn[];
  readonly needlesPerBed: number;
  readonly needlePitchMm: number;
}

/** Wanted body measures that the plan was made for; null where the file gives none. */
export interface PlannedFoot {
  readonly lengthMm: number | null;
  /** Half-width of the range that a shoe size leaves open; 0 for a measured length. */
  readonly lengthToleranceMm: number;
  readonly ballGirthMm: number | null;
  readonly calfGirthMm: number | null;
  readonly ankleGirthMm: number | null;
  readonly heelDiagonalMm: number | null;
  readonly heelBreadthMm: number | null;
  readonly arch: ArchKind;
  readonly toes: ToeOutline;
  readonly side: FootSide;
  /** What the foot's form is made from: what is given, less what cannot be true of one foot. */
  readonly body: FootMeasures;
  /** All of its measures, the missing ones estimated, with their scatter. */
  readonly measures: EstimatedMeasures;
  /** Wanted girth and length of the sock itself, ease included. */
  readonly wantedGirthMm: number | null;
  readonly wantedLengthMm: number | null;
}
