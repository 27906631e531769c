/**
 * Marks of a chart's cells: bits, so that a cell may carry several. Each has a place of its own in the cell, and a
 * filled shape that is told from the others without colour, down to eight pixels.
 */
export const CHART_MARK = {
  castOn: 1, ribKnit: 2, purl: 4, held: 8, wrap: 16, cornerLeft: 32, cornerRight: 64, gather: 128, turn: 256, heelShift: 512, moved: 1024,
  decreaseLeft: 2048, decreaseRight: 4096, graft: 8192, bindOff: 16384, joined: 32768, seamLeft: 65536, seamRight: 131072,
} as const;

export type ChartMark = keyof typeof CHART_MARK;
export const CHART_MARKS = Object.keys(CHART_MARK) as readonly ChartMark[];

/**
 * The marks as paths of a cell one unit wide and high, y downwards, filled by the even-odd rule. Chosen by eye, after
 * what is done: a lid where a needle waits, a ball of yarn under it for the wrap, a rounded corner where the
 * corner is closed, diamonds for loops moved by hand, a tail from where a decrease takes its second loop, and teeth where
 * edges are sewn.
 */
export const MARK_PATHS: Readonly<Record<ChartMark, string>> = {
  castOn: 'M.06 .78H.42V.42H.58V.78H.94V.96H.06Z',
  ribKnit: 'M.38 .94L.5 .36L.62 .94Z',
  purl: 'M.2 .93A.3 .34 0 0 1 .8 .93Z',
  held: 'M0 0H1V.4H.87V.2H.13V.4H0Z',
  wrap: 'M.29 .5A.21 .21 0 1 0 .71 .5A.21 .21 0 1 0 .29 .5Z',
  cornerLeft: 'M0 0H.54A.54 .54 0 0 1 0 .54Z',
  cornerRight: 'M1 0H.46A.54 .54 0 0 0 1 .54Z',
  gather: 'M.5 .04L.84 .38L.5 .72L.16 .38ZM.5 .24L.64 .38L.5 .52L.36 .38Z',
  turn: 'M.5 .06L.82 .38L.5 .7L.18 .38Z',
  heelShift: 'M.27 .12L.48 .38L.27 .64L.06 .38ZM.73 .12L.94 .38L.73 .64L.52 .38Z',
  moved: 'M.2 .1H.8V.66H.2ZM.36 .26V.5H.64V.26Z',
  decreaseLeft: 'M.98 .98L.58 .2A.27 .27 0 1 0 .16 .54Z',
  decreaseRight: 'M.02 .98L.42 .2A.27 .27 0 1 1 .84 .54Z',
  graft: 'M.06 .16L.5 .44L.94 .16V.84L.5 .56L.06 .84Z',
  bindOff: 'M.04 .5A.46 .36 0 1 0 .96 .5A.46 .36 0 1 0 .04 .5ZM.26 .5A.24 .15 0 1 0 .74 .5A.24 .15 0 1 0 .26 .5Z',
  joined: 'M.3 0H.7L.5 .36Z',
  seamLeft: 'M0 .16L.36 .5L0 .84Z',
  seamRight: 'M1 .16L.64 .5L1 .84Z',
};

/** Marks that a set of bits holds, in the order of the legend. */
export function marksIn(bits: number): ChartMark[] {
  return CHART_MARKS.filter((mark) => (bits & CHART_MARK[mark]) !== 0);
}
