import { pageWords } from '../words/page-words.ts';
import { el } from './dom.ts';
import { svg } from './svg.ts';

const line = (y: number, kind: string): SVGElement => svg('path', { d: `M9 2V${y}`, class: kind });
const bow = (): SVGElement => svg('path', { d: 'M6 17c0-6 .5-8 3-8s3 2 3 8', class: 'sign-yarn' });

/** What the signs of the beds mean. */
export function drawBedLegend(): HTMLElement {
  const { legend, legendLabel } = pageWords().timeline;
  const entry = (text: string, ...sign: readonly SVGElement[]): HTMLElement =>
    el('li', {}, svg('svg', { viewBox: '0 0 18 20', width: 16, height: 18, 'aria-hidden': 'true' }, ...sign), text);
  return el('ul', { class: 'beds-legend', 'aria-label': legendLabel },
    entry(legend.working, line(13, 'sign-working'), bow()),
    entry(legend.held, line(18, 'sign-held')),
    entry(legend.empty, line(7, 'sign-empty')),
    entry(legend.toHold, svg('ellipse', { cx: 9, cy: 10, rx: 4.5, ry: 4.5, class: 'sign-mark' }), svg('path', { d: 'M1 10h16', class: 'sign-ring' })),
    entry(legend.toWork, svg('ellipse', { cx: 9, cy: 10, rx: 4.5, ry: 4.5, class: 'sign-hollow' })),
    entry(legend.wrapped, line(18, 'sign-held'), svg('ellipse', { cx: 9, cy: 10, rx: 6, ry: 5, class: 'sign-ring' })),
    entry(legend.moved, svg('path', { d: 'M4 3c0 8 10 3 10 11', class: 'sign-ring' }), svg('path', { d: 'M10.500 12.500h7l-3.500 6z', class: 'sign-mark' })));
}
