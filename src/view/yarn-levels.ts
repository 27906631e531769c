/** How finely yarn is drawn: straight pieces along each piece of yarn (yarn/yarn-lay.ts), and sides round it. */
export interface YarnLevel {
  /** Pixels a stitch from which on it is drawn so. */
  readonly from: number;
  readonly segments: number;
  readonly sides: number;
  /** Whether its plies and fibres are drawn. */
  readonly hasPlies: boolean;
}

/** DESIGN.md, the picture; and two more, one below 30 for what leaves triangles over and one for a stitch that fills much of the picture. Plies chosen by eye. */
export const YARN_LEVELS: readonly YarnLevel[] = [
  { from: 0, segments: 12, sides: 4, hasPlies: false },
  { from: 20, segments: 16, sides: 6, hasPlies: true },
  { from: 30, segments: 24, sides: 6, hasPlies: true },
  { from: 70, segments: 32, sides: 8, hasPlies: true },
  { from: 140, segments: 40, sides: 10, hasPlies: true },
  { from: 300, segments: 60, sides: 18, hasPlies: true },
];

/** Share of its thickness by which yarn with plies is drawn thicker, for the fibres that stand off it; chosen by eye. */
export const HALO = 0.13;
/** Sides from which on the strands show in a yarn's outline. */
export const RELIEF_SIDES = 16;

/** Pixels a stitch at which yarn begins to show over the mesh, at which all of it does and the mesh begins to go, and at which that is gone; 14 as in DESIGN.md. */
export const FADE_PIXELS = [11.5, 14, 16] as const;

/** Shares of yarn and mesh, 0..1; never both less than 1, so that nothing shines through. */
export interface Fade { readonly yarn: number; readonly mesh: number }

function risen(from: number, to: number, at: number): number { return Math.min(1, Math.max(0, (at - from) / (to - from))); }

export function fadeAt(pixels: number): Fade {
  const [from, middle, to] = FADE_PIXELS;
  return { yarn: risen(from, middle, pixels), mesh: 1 - risen(middle, to, pixels) };
}

export function trianglesOf({ segments, sides }: YarnLevel): number { return 2 * segments * sides; }

/** The finest level for so many pixels a stitch, none beyond `finest`, whose pieces take at most so many triangles; -1 if even the coarsest takes more. */
export function levelFor(pixels: number, pieces: number, finest: number, mostTriangles: number): number {
  let level = Math.min(finest, YARN_LEVELS.length - 1);
  while (level >= 0 && (YARN_LEVELS[level].from > pixels || pieces * trianglesOf(YARN_LEVELS[level]) > mostTriangles)) level--;
  return level;
}
