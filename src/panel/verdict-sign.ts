import type { FitVerdict } from '../measure/fit-answer.ts';
import { svg } from './svg.ts';

/** Told apart by their outline, not by colour alone: a round with a tick, a triangle with a stroke, a square with a cross. */
const SIGNS: Readonly<Record<FitVerdict, readonly string[]>> = {
  good: ['M1.5 10a8.5 8.5 0 1 0 17 0a8.5 8.5 0 1 0-17 0z', 'M6 10.4l2.8 2.8L14.2 7'],
  mind: ['M10 2.2L18.6 17.4H1.4Z', 'M10 8v4.2M10 14.8v.2'],
  poor: ['M3 2h14a1 1 0 0 1 1 1v14a1 1 0 0 1-1 1H3a1 1 0 0 1-1-1V3a1 1 0 0 1 1-1z', 'M6.5 6.5l7 7M13.5 6.5l-7 7'],
};

export function drawSign(verdict: FitVerdict): SVGSVGElement {
  return svg('svg', { viewBox: '0 0 20 20', class: 'verdict-sign', 'aria-hidden': 'true', 'data-verdict': verdict }, ...SIGNS[verdict].map((d) => svg('path', { d })));
}
