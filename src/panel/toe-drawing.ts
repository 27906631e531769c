import type { FootSide } from '../foot/foot-kinds.ts';
import { pageWords } from '../words/page-words.ts';
import { el } from './dom.ts';
import { svg } from './svg.ts';
import { outlineToe } from './toe-outline.ts';
import type { ToeShape } from './toe-outline.ts';

/** A toe, and whose it is. */
export interface SidedToe { readonly toe: ToeShape; readonly side: FootSide }

/** So much of the foot is drawn before the longest toe, mm. */
const FOOT_MM = 26;
/** Room for the names of the edges beside the tip, and the height of their letters, mm. */
const NAMES_MM = 62, LETTER_MM = 11.5, NAME_GAP_MM = 4;

/**
 * A toe lying flat, from above, its tip to the right: so a right foot's great toe is at the upper edge
 * and a left foot's at the lower one. A drawing of counts and gauge, not of the relaxed cloth.
 */
export function drawToe(sided: SidedToe): readonly Node[] {
  const words = toeWords(sided);
  return [drawOutlines([sided], pageWords().controls.toe.outline(words)), el('figcaption', { 'aria-hidden': 'true' }, words)];
}

/** Two toes over each other, their tips together, as they lie on one foot. */
export function drawToePair(first: SidedToe, second: SidedToe): SVGSVGElement {
  return drawOutlines([first, second], pageWords().controls.toe.outlines(toeWords(first), toeWords(second)));
}

function drawOutlines(toes: readonly SidedToe[], label: string): SVGSVGElement {
  const outlines = toes.map(({ toe, side }) => ({ ...outlineToe(toe), up: side === 'right' ? -1 : 1 }));
  const half = Math.max(...outlines.map(({ inner }) => inner[0]?.[1] ?? 0)), start = FOOT_MM + Math.max(...outlines.map(({ inner }) => inner.at(-1)?.[0] ?? 0));
  const slanted = toes.find(isSlanted), names = slanted === undefined ? [] : drawNames(slanted.side === 'right' ? -1 : 1, half);
  const left = names.length > 0 ? NAMES_MM : 0;
  return svg('svg', { viewBox: `${-start - left} ${-half - 2} ${start + 3 + 2 * left} ${2 * half + 4}`, class: 'toe-drawing', role: 'img', 'aria-label': label },
    ...outlines.flatMap(({ inner, outer, up }, which) => {
      const end = inner.at(-1)?.[0] ?? 0, breadth = inner[0]?.[1] ?? 0;
      const points = [[end - start, breadth], ...inner, ...[...outer].reverse(), [end - start, -breadth]].map(([x, y]) => `${(x - end).toFixed(2)},${(up * y).toFixed(2)}`);
      return [
        svg('polygon', { points: points.join(' '), class: which === 0 ? 'toe-shape' : 'toe-shape is-other' }),
        svg('path', { d: `M${-end} ${-breadth}V${breadth}`, class: 'toe-start' }),
      ];
    }), ...names);
}

/** Which edge is which, where the two differ. */
function drawNames(up: number, half: number): readonly SVGElement[] {
  const { greatToe, littleToe } = pageWords().controls.toe;
  return ([[greatToe, up], [littleToe, -up]] as const).map(([name, edge]) => (
    svg('text', { x: NAME_GAP_MM, y: (edge * (half - LETTER_MM) + LETTER_MM / 3).toFixed(1), 'font-size': LETTER_MM, class: 'toe-name' }, name)));
}

function isSlanted({ toe }: SidedToe): boolean {
  return toe.steps.some(({ ends }) => ends === 'outer');
}

function toeWords(sided: SidedToe): string {
  const { toe, side } = sided, { inner, outer } = outlineToe(toe), tip = (inner.at(-1)?.[1] ?? 0) - (outer.at(-1)?.[1] ?? 0);
  const say = pageWords().controls.toe, words = say.words(toe.bedStitches, Math.round(tip / toe.stitchMm), Math.round((inner.at(-1)?.[0] ?? 0) / toe.rowMm), toe.kind === 'decreased');
  return isSlanted(sided) ? say.slanted(words, side) : words;
}
