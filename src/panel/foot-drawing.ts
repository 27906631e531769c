import type { FootView, Polyline } from '../foot/draw-foot.ts';
import { svg } from './svg.ts';

/** Room round a view for its lines and numbers, mm. */
const MARGIN_MM = 12;

/** A view of a foot with the tapes over it, each with its number: lines are led to by `data-measure`. */
export function drawFootView({ outline, measures }: FootView, words: string, isClosed: boolean, numberOf: (measure: string) => number): SVGSVGElement {
  const all = [...outline, ...measures.flatMap(({ line }) => line)];
  const xs = all.map(([x]) => x), ys = all.map(([, y]) => y);
  const left = Math.min(...xs) - MARGIN_MM, top = -Math.max(...ys) - MARGIN_MM;
  const box = [left, top, Math.max(...xs) + MARGIN_MM - left, -Math.min(...ys) + MARGIN_MM - top].map((value) => value.toFixed(1)).join(' ');
  return svg('svg', { viewBox: box, class: 'foot-drawing', role: 'img', 'aria-label': words },
    svg('path', { d: pathOf(outline) + (isClosed ? 'Z' : ''), class: 'foot-skin' }),
    ...measures.map(({ measure, line }) => drawTape(measure, line, numberOf(measure))));
}

function drawTape(measure: string, line: Polyline, number: number): SVGGElement {
  const [x, y] = middleOf(line), isRule = line.length === 2;
  return svg('g', { class: isRule ? 'tape is-rule' : 'tape', 'data-measure': measure, 'data-number': number },
    svg('path', { d: pathOf(line), class: 'tape-reach' }), svg('path', { d: pathOf(line), class: 'tape-line' }),
    svg('circle', { cx: x.toFixed(1), cy: (-y).toFixed(1), r: 9 }),
    svg('text', { x: x.toFixed(1), y: (4.2 - y).toFixed(1), 'text-anchor': 'middle' }, String(number)));
}

/** The middle of a rule is between its two ends; of a tape, its middle point. */
function middleOf(line: Polyline): readonly [number, number] {
  const first = line[0] ?? [0, 0], last = line.at(-1) ?? first;
  return line.length === 2 ? [(first[0] + last[0]) / 2, (first[1] + last[1]) / 2] : line[line.length >> 1] ?? first;
}

function pathOf(line: Polyline): string {
  return line.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${x.toFixed(1)} ${(-y).toFixed(1)}`).join('');
}
