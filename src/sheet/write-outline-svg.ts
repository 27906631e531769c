import { extentOf } from '../base/extent.ts';
import type { SockOutline } from './flat-outline.ts';

/** What stands on a template besides its lines. */
export interface OutlineWords {
  /** Which sock it is: its name, counts, gauge. */
  readonly title: string;
  readonly details: readonly string[];
  /** Beside the line by which a print is checked. */
  readonly checkLine: string;
}

/** A print is checked by this line: with a ruler, before anything is cut. */
export const CHECK_LINE_MM = 50;

const MARGIN_MM = 10, LETTERS_MM = 4, LINE_MM = 6, TICK_MM = 4;

/** Markup of a text; what XML 1.0 does not have at all is left out. */
function escapeXml(text: string): string {
  return text.replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '').replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '')
    .replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}

function pathOf(points: readonly number[], isClosed: boolean): string {
  const steps: string[] = [];
  for (let i = 0; i < points.length; i += 2) steps.push(`${points[i].toFixed(2)} ${points[i + 1].toFixed(2)}`);
  return `M${steps.join('L')}${isClosed ? 'Z' : ''}`;
}

/**
 * A template to cut or trace by, 1:1: one unit of the drawing is a millimetre, on screen and on
 * paper. The whole is `width` by `height` mm, the outline at its own size within; below it the line
 * to check a print by, and words.
 */
export function writeOutlineSvg(outline: SockOutline, { title, details, checkLine }: OutlineWords): string {
  const { left, top, width, height } = extentOf(outline.edge);
  const wordsTop = top + height + MARGIN_MM, lines = [title, ...details];
  const whole = {
    left: left - MARGIN_MM, top: top - MARGIN_MM,
    width: Math.max(width, 2 * CHECK_LINE_MM) + 2 * MARGIN_MM,
    height: height + 3 * MARGIN_MM + TICK_MM + LINE_MM * (lines.length + 1),
  };
  const [x, y, wide, high] = [whole.left, whole.top, whole.width, whole.height].map((number) => number.toFixed(2));
  const end = left + CHECK_LINE_MM, tick = (at: number): string => `M${at.toFixed(2)} ${wordsTop.toFixed(2)}v${TICK_MM}`;
  const words = [checkLine, ...lines].map((line, row) =>
    `<text x="${left.toFixed(2)}" y="${(wordsTop + TICK_MM + LINE_MM * (row + 1)).toFixed(2)}">${escapeXml(line)}</text>`);
  return `${[
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${wide}mm" height="${high}mm" viewBox="${x} ${y} ${wide} ${high}">`,
    `<title>${escapeXml(title)}</title>`,
    '<g fill="none" stroke="#000000" stroke-width="0.3" stroke-linejoin="round">',
    `<path id="outline" d="${pathOf(outline.edge, true)}"/>`,
    ...outline.lines.map((line) => `<path class="mark" stroke-dasharray="2 1.5" d="${pathOf(line, false)}"/>`),
    `<path id="check-line" d="M${left.toFixed(2)} ${(wordsTop + TICK_MM / 2).toFixed(2)}H${end.toFixed(2)}"/>`,
    `<path class="tick" d="${tick(left)}${tick(end)}"/>`,
    '</g>',
    `<g font-family="sans-serif" font-size="${LETTERS_MM}" fill="#000000">`,
    ...words,
    '</g>',
    '</svg>',
  ].join('\n')}\n`;
}
