import { pageWords } from '../words/page-words.ts';
import type { LengthUnit } from './units.ts';

const SVG = 'http://www.w3.org/2000/svg';

type Attributes = Readonly<Record<string, string | number>>;

function shape(name: string, attributes: Attributes, text = ''): SVGElement {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
  element.textContent = text;
  return element;
}

/** Pixels of the picture: stitches a little wider than high, and a ruler along two sides of the patch. */
const STITCH = 14, ROW = 10, ACROSS = 17, UP = 22;
/** The patch that is counted: its first stitch and row, and how many. */
const FROM = 3, WIDE = 10, LOW = 3, HIGH = 14;
const RULER = 22;

/** A swatch with a patch marked in its middle, and rulers along it: our own drawing, in the unit of the page. */
export function drawSwatch(unit: LengthUnit): SVGSVGElement {
  const width = ACROSS * STITCH + 12, height = UP * ROW + 12;
  const svg = document.createElementNS(SVG, 'svg');
  svg.setAttribute('class', 'swatch-drawing');
  svg.setAttribute('viewBox', `0 0 ${width} ${height}`);
  svg.setAttribute('role', 'img');
  svg.setAttribute('aria-label', pageWords().swatches.drawing);
  const cloth = shape('g', { transform: 'translate(6 6)' });
  cloth.append(shape('rect', { class: 'swatch-cloth', x: 0, y: 0, width: ACROSS * STITCH, height: UP * ROW, rx: 5 }), stitches());
  const left = FROM * STITCH, top = LOW * ROW, wide = WIDE * STITCH, high = HIGH * ROW;
  cloth.append(shape('rect', { class: 'swatch-patch', x: left, y: top, width: wide, height: high }));
  cloth.append(ruler(left, top + high + 4, wide, unit, false), ruler(left + wide + 4, top, high, unit, true));
  svg.append(cloth);
  return svg;
}

/** Every stitch a V. */
function stitches(): SVGElement {
  const steps: string[] = [];
  for (let row = 0; row < UP; row++) {
    for (let stitch = 0; stitch < ACROSS; stitch++) {
      const x = stitch * STITCH, y = row * ROW;
      steps.push(`M${x + 2} ${y + 1.5}l${STITCH / 2 - 2} ${ROW - 2}l${STITCH / 2 - 2} ${2 - ROW}`);
    }
  }
  return shape('path', { class: 'swatch-stitches', d: steps.join('') });
}

/** Numbers with fifths of a centimetre or eighths of an inch between them. */
function ruler(x: number, y: number, length: number, unit: LengthUnit, isUpright: boolean): SVGElement {
  const marks = unit === 'cm' ? 5 : 2, parts = unit === 'cm' ? 5 : 8;
  const group = shape('g', { transform: `translate(${x} ${y})${isUpright ? ' rotate(90) scale(1 -1)' : ''}` });
  group.append(shape('rect', { class: 'swatch-ruler', x: -4, y: 0, width: length + 8, height: RULER, rx: 2 }));
  for (let part = 0; part <= marks * parts; part++) {
    const at = (length * part) / (marks * parts), isWhole = part % parts === 0;
    group.append(shape('path', { class: 'swatch-tick', d: `M${at} 0v${isWhole ? 8 : part % (parts / 2) === 0 ? 6 : 4}` }));
    if (isWhole) group.append(shape('text', { class: 'swatch-number', transform: isUpright ? `translate(${at} 16) scale(1 -1) rotate(-90)` : `translate(${at} 18)` }, String(part / parts)));
  }
  return group;
}
