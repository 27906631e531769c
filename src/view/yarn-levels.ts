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
/**
 * Thickness of the yarn as it is drawn over its own. A yarn's diameter is that of its packed fibres; as it lies in the fabric it is
 * looser than that, and from where its fibres are not seen one by one they are seen as body. Chosen by eye.
 */
export function bodyAt(pixels: number): number { return 1 + MOST_BODY * (1 - Math.min(1, Math.max(0, (pixels - BODY_PIXELS[0]) / (BODY_PIXELS[1] - BODY_PIXELS[0])))); }
const MOST_BODY = 0.07, BODY_PIXELS = [60, 240] as const;

/** Sides from which on the strands show in a yarn's outline. */
export const RELIEF_SIDES = 16;

/** Pixels a stitch up to which there is never yarn, and from which on there is never mesh; about the 14 of DESIGN.md. */
export const FADE_PIXELS = [11.5, 16] as const;
/** Between these a picture at rest stays what it was, mesh or yarn. */
export const MIDDLE_PIXELS = [13.25, 14.25] as const;

export function trianglesOf({ segments, sides }: YarnLevel): number { return 2 * segments * sides; }

/** The finest level for so many pixels a stitch, none beyond `finest`, whose pieces take at most so many triangles; -1 if even the coarsest takes more. */
export function levelFor(pixels: number, pieces: number, finest: number, mostTriangles: number): number {
  let level = Math.min(finest, YARN_LEVELS.length - 1);
  while (level >= 0 && (YARN_LEVELS[level].from > pixels || pieces * trianglesOf(YARN_LEVELS[level]) > mostTriangles)) level--;
  return level;
}
