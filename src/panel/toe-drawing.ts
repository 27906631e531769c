import type { FootSide } from '../foot/foot-kinds.ts';
import { el } from './dom.ts';
import { svg } from './svg.ts';
import { outlineToe } from './toe-outline.ts';
import type { ToeShape } from './toe-outline.ts';
import { countOf } from './units.ts';

/** So much of the foot is drawn before the toe, mm. */
const FOOT_MM = 26;

/**
 * A toe lying flat, from above, its tip to the right: so a right foot's great toe is at the upper edge
 * and a left foot's at the lower one. A drawing of counts and gauge, not of the relaxed cloth.
 */
export function drawToe(toe: ToeShape, side: FootSide): readonly Node[] {
  const { inner, outer } = outlineToe(toe), up = side === 'right' ? -1 : 1;
  const half = inner[0]?.[1] ?? 0, end = inner.at(-1)?.[0] ?? 0;
  const points = [[-FOOT_MM, half], ...inner, ...[...outer].reverse(), [-FOOT_MM, -half]].map(([x, y]) => `${x.toFixed(2)},${(up * y).toFixed(2)}`);
  const first = inner[0], last = inner.at(-1), tip = outer.at(-1);
  const stitchesLeft = first === undefined || last === undefined || tip === undefined ? 0 : Math.round((last[1] - tip[1]) / toe.stitchMm);
  const isSlanted = toe.steps.some(({ ends }) => ends === 'outer');
  const words = `${toe.bedStitches} stitches a bed to ${stitchesLeft}, over ${countOf(Math.round(end / toe.rowMm), 'round')}${isSlanted ? '; slanted to the little toe' : ''}`;
  const picture = svg('svg', { viewBox: `${-FOOT_MM} ${-half - 2} ${end + FOOT_MM + 3} ${2 * half + 4}`, class: 'toe-drawing', role: 'img', 'aria-label': `Outline of the toe, lying flat: ${words}` },
    svg('polygon', { points: points.join(' '), class: 'toe-shape' }),
    svg('path', { d: `M0 ${-half}V${half}`, class: 'toe-start' }));
  return [picture, el('figcaption', { 'aria-hidden': 'true' }, words)];
}
