import { extentOf } from '../base/extent.ts';
import type { SockOutline } from '../sheet/flat-outline.ts';

const SVG = 'http://www.w3.org/2000/svg';

/** A small picture of it, so many pixels to the millimetre; the table beside it says all that it shows. */
export function drawOutline(outline: SockOutline, pixelsPerMm: number): SVGSVGElement {
  const { left, top, width, height } = extentOf(outline.edge), margin = 1.5 / pixelsPerMm;
  const svg = document.createElementNS(SVG, 'svg');
  svg.setAttribute('class', 'sock-outline');
  svg.setAttribute('aria-hidden', 'true');
  svg.setAttribute('viewBox', [left - margin, top - margin, width + 2 * margin, height + 2 * margin].map((number) => number.toFixed(1)).join(' '));
  svg.setAttribute('width', ((width + 2 * margin) * pixelsPerMm).toFixed(1));
  svg.setAttribute('height', ((height + 2 * margin) * pixelsPerMm).toFixed(1));
  svg.append(drawPath(outline.edge, true, 'outline-edge'), ...outline.lines.map((line) => drawPath(line, false, 'outline-line')));
  return svg;
}

function drawPath(points: readonly number[], isClosed: boolean, kind: string): SVGPathElement {
  const path = document.createElementNS(SVG, 'path'), steps: string[] = [];
  for (let i = 0; i < points.length; i += 2) steps.push(`${points[i].toFixed(1)} ${points[i + 1].toFixed(1)}`);
  path.setAttribute('d', `M${steps.join('L')}${isClosed ? 'Z' : ''}`);
  path.setAttribute('class', kind);
  path.setAttribute('vector-effect', 'non-scaling-stroke');
  return path;
}
