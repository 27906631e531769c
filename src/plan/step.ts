import type { Bed } from './sock-file.ts';

/** Parts of a sock as the knitter works through them. A free program may use any of these names. */
export type SectionName =
  | 'cast-on' | 'leg' | 'plain' | 'ankle'
  | 'heel-in' | 'heel-level' | 'heel-out'
  | 'foot' | 'toe' | 'toe-in' | 'toe-out' | 'closing';

export type Side = 'left' | 'right';

/** Needles are counted from 1 at the left end of a bed. */
export interface NeedleRef { readonly bed: Bed; readonly needle: number }

/**
 * One thing that a knitter does at the machine. Passes are the `knit` steps; everything else
 * happens between passes, at the side where the carriage stands.
 */
export type Step =
  /** Forms one loop on each needle, in the order given; the yarn ends at the carriage's side. `isClosed`: a ring, else a row. */
  | { readonly do: 'cast-on'; readonly needles: readonly NeedleRef[]; readonly isClosed: boolean; readonly carriage: Side; readonly yarn: number; readonly section: SectionName }
  /** One pass: every working needle of the named beds knits, from the carriage's side to the other. */
  | { readonly do: 'knit'; readonly beds: readonly Bed[]; readonly from: Side; readonly section: SectionName }
  | { readonly do: 'hold'; readonly at: NeedleRef }
  | { readonly do: 'return'; readonly at: NeedleRef }
  /** Lays the working yarn round a needle that rests at the carriage's side. */
  | { readonly do: 'wrap'; readonly at: NeedleRef }
  /** Moves all loops of a needle, in the order of the list: an emptied needle may be filled by a later pair. `heel`: to the heel bed before a heel on more than half of the stitches, and back after it. */
  | { readonly do: 'transfer'; readonly moves: readonly { readonly from: NeedleRef; readonly to: NeedleRef }[]; readonly why: 'gather' | 'turn' | 'heel' | 'decrease' | 'join' | 'other' }
  /** Breaks the working yarn and joins yarn number `yarn` at the carriage's side. */
  | { readonly do: 'yarn'; readonly yarn: number }
  /** Joins live loops pair by pair with one row of yarn. */
  | { readonly do: 'graft'; readonly pairs: readonly (readonly [NeedleRef, NeedleRef])[]; readonly yarn: number }
  /** Chains the loops of these needles off, in order. */
  | { readonly do: 'bind-off'; readonly needles: readonly NeedleRef[]; readonly yarn: number }
  /** Takes live loops off on a thread: they stay live. */
  | { readonly do: 'take-off'; readonly needles: readonly NeedleRef[] }
  /** Sews the two edges of flat passes together, pass by pass; pass 0 is the cast-on. */
  | { readonly do: 'seam'; readonly fromPass: number; readonly toPass: number };

export interface Program {
  readonly needlesPerBed: number;
  readonly yarnCount: number;
  readonly steps: readonly Step[];
}
