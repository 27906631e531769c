/**
 * What a sock file may leave out. Unless said otherwise: common practice, no source.
 * Turn-down width (nearest to a third of the heel) and toe tip (as the turn-down) are computed.
 */
export const DEFAULTS = {
  name: 'Sock',
  /** Plain knit 10 % smaller than the foot; length as the foot. */
  girthEasePercent: -10,
  lengthEasePercent: 0,
  /** A foot's looks that say nothing of themselves; chosen by eye. */
  arch: 'usual',
  toes: 'sloping',
  side: 'right',
  legKind: 'flat-rib',
  legLengthMm: 110,
  /** So that the heel, which wants most handling, lies on the front bed. */
  gatherBed: 'back',
  /** Chosen by eye: 1x1 rib at rest draws in to about seven tenths of plain knitting. */
  ribWidthFactor: 0.7,
  anklePasses: 4,
  /** Rows between a flat leg and the turning of the work. */
  plainPasses: 2,
  plateauPasses: 0,
  heelWraps: true,
  footSide: 'right',
  toeKind: 'decreased',
  /** Four stitches every second round. */
  passesPerDecrease: 4,
  slantStitches: 0,
  closing: 'graft',
  firmness: 'soft',
  /** Chosen: an invented machine of a common size. */
  needlesPerBed: 180,
  needlePitchMm: 5,
  yarn: {
    name: 'Main yarn',
    /** A common weight of sock yarn, 238 tex. */
    metresPer100g: 420,
    /** Chosen by eye. */
    colour: '#7d8fa3',
    from: 'leg',
  },
} as const;

/** Colours of yarns that give none, in turn; chosen by eye to stand apart in both themes. */
export const YARN_COLOURS = ['#7d8fa3', '#c46a4a', '#d9b44a', '#5f8a6b', '#8c6a9c', '#e3dccf'] as const;

/** A decreased toe ends on at least this many stitches a bed, a short-row toe on this many. */
export const LEAST_TIP = { decreased: 4, 'short-row': 2 } as const;
export const LEAST_TURN_DOWN = 2;
/** Turn-down and tip leave at least one needle to hold at each end of the bed. */
export const HELD_AT_LEAST = 2;
