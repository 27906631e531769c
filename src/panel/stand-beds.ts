import type { HandMove } from '../sheet/hand-moves.ts';
import { BED, NEEDLE } from '../machine/codes.ts';
import type { Bed } from '../plan/sock-file.ts';
import type { NeedleRef, Side } from '../plan/step.ts';
import { pageWords } from '../words/page-words.ts';
import { svg } from './svg.ts';

/** Both beds at a stop, from above, as they are drawn. */
export interface BedPicture {
  /** NEEDLE codes, front bed first. */
  readonly states: Uint8Array;
  readonly needlesPerBed: number;
  readonly moves: readonly HandMove[];
  /** Where the carriage stands and where it goes; the same at cast-on and closing. */
  readonly from: Side;
  readonly to: Side;
  /** Beds that knit. */
  readonly beds: readonly Bed[];
  readonly label: (needle: number) => string;
}

/** Pixels: room for the carriage at each side, the widest a needle takes, the depth of the gap. */
const SIDE_PX = 74, WIDEST_PX = 34, GAP_PX = 40;
/** A needle at rest in its bed, at work, and pushed forward in hold. */
const LENGTH_PX = { empty: 7, working: 26, held: 44 } as const;
const FONT_PX = 17;
/** More moves than this are not labelled one by one: the words name them. */
const MOST_LABELS = 8;

interface Frame { readonly at: (needle: number) => number; readonly pitch: number; readonly heightPx: number; readonly first: number; readonly last: number }

/** Where a bed's edge lies, and which way its needles point. */
const edgeOf = (bed: Bed, heightPx: number): { readonly y: number; readonly way: 1 | -1 } =>
  bed === 'back' ? { y: heightPx / 2 - GAP_PX, way: 1 } : { y: heightPx / 2 + GAP_PX, way: -1 };

function frameOf({ states, needlesPerBed, moves }: BedPicture, widthPx: number, heightPx: number): Frame {
  const used: number[] = moves.flatMap((move) => (move.do === 'transfer' ? [move.from.needle, move.to.needle] : [move.at.needle]));
  states.forEach((state, i) => { if (state !== NEEDLE.empty) used.push((i % needlesPerBed) + 1); });
  const first = Math.max(1, Math.min(...used) - 1), last = Math.min(needlesPerBed, Math.max(...used) + 1), side = Math.min(SIDE_PX, widthPx * 0.11);
  const pitch = Math.min(WIDEST_PX, (widthPx - 2 * side) / (last - first + 1)), left = (widthPx - pitch * (last - first + 1)) / 2;
  return { at: (needle) => left + (needle - first + 0.5) * pitch, pitch, heightPx, first, last };
}

/** The beds from above, the back one at the top: held needles stand forward, those to move are ringed and named. */
export function drawBeds(picture: BedPicture, widthPx: number, heightPx: number): SVGSVGElement {
  const frame = frameOf(picture, widthPx, heightPx), { face } = pageWords().stand;
  const held = picture.states.filter((state) => state === NEEDLE.held).length;
  return svg('svg', { class: 'stand-beds', width: widthPx, height: heightPx, viewBox: `0 0 ${widthPx} ${heightPx}`, role: 'img', 'aria-label': face.bedsLabel(picture.moves.length, held) },
    ...(['back', 'front'] as const).flatMap((bed) => drawBed(picture, frame, bed, widthPx)),
    ...drawMiddle(picture, frame),
    ...picture.moves.flatMap((move) => drawMove(move, frame, picture.moves.length <= MOST_LABELS ? picture.label : null)),
    ...drawCarriage(picture, frame, widthPx));
}

function drawBed({ states, needlesPerBed, beds, label, moves }: BedPicture, { at, pitch, heightPx, first, last }: Frame, bed: Bed, widthPx: number): SVGElement[] {
  const { y, way } = edgeOf(bed, heightPx), { face } = pageWords().stand, start = BED[bed] * needlesPerBed, outer = y - way * 24;
  const drawn: SVGElement[] = [svg('rect', {
    class: `bed-plate${beds.includes(bed) ? ' is-knitting' : ''}`, x: at(first) - pitch / 2, width: pitch * (last - first + 1), y: Math.min(y, outer), height: 24, rx: 3,
  })];
  for (let needle = first; needle <= last; needle++) {
    const state = states[start + needle - 1], name = state === NEEDLE.held ? 'held' : state === NEEDLE.working ? 'working' : 'empty';
    const length = LENGTH_PX[name], wide = Math.max(1.5, pitch * (name === 'empty' ? 0.24 : 0.5)), low = y - way * 6;
    drawn.push(svg('rect', { class: `needle is-${name}`, x: at(needle) - wide / 2, width: wide, y: Math.min(low, low + way * length), height: length, rx: wide / 3 }));
    if (name === 'held') drawn.push(svg('circle', { class: 'needle is-held', cx: at(needle), cy: low + way * length, r: Math.max(2, pitch * 0.36) }));
  }
  const row = bed === 'back' ? outer - 10 : outer + 10 + FONT_PX * 0.75, carrying = Array.from({ length: needlesPerBed }, (_, i) => i + 1).filter((needle) => states[start + needle - 1] !== NEEDLE.empty);
  const ends = [carrying[0], carrying.at(-1)].filter((needle) => needle !== undefined);
  // Labels of needles to move go before those of the ends.
  const marked = moves.length <= MOST_LABELS ? moves.flatMap((move) => (move.do === 'transfer' ? [move.from, move.to] : [move.at])).filter((ref) => ref.bed === bed).map(({ needle }) => needle) : [];
  const isClear = (needle: number): boolean => marked.every((other) => Math.abs(at(other) - at(needle)) > 3.4 * FONT_PX);
  for (const needle of new Set(ends)) if (isClear(needle)) drawn.push(svg('text', { class: 'bed-label', x: at(needle), y: row, 'text-anchor': 'middle', 'font-size': FONT_PX }, label(needle)));
  drawn.push(svg('text', { class: 'bed-name', x: widthPx / 2, y: row, 'text-anchor': 'middle', 'font-size': FONT_PX - 2 }, face[bed === 'back' ? 'backBed' : 'frontBed']));
  return drawn;
}

/** The middle of the machine, from which needles are counted. */
function drawMiddle({ needlesPerBed }: BedPicture, { at, heightPx, first, last }: Frame): SVGElement[] {
  const middle = needlesPerBed / 2;
  if (middle < first || middle + 1 > last) return [];
  const x = (at(Math.floor(middle)) + at(Math.ceil(middle + 0.5))) / 2;
  return [svg('line', { class: 'bed-middle', x1: x, x2: x, y1: heightPx / 2 - GAP_PX - 24, y2: heightPx / 2 + GAP_PX + 24 })];
}

function drawMove(move: HandMove, frame: Frame, label: ((needle: number) => string) | null): SVGElement[] {
  const { at, pitch, heightPx } = frame, radius = Math.max(6, pitch * 0.62);
  const tip = ({ bed, needle }: NeedleRef): { x: number; y: number } => {
    const { y, way } = edgeOf(bed, heightPx);
    return { x: at(needle), y: y + way * 16 };
  };
  const name = (ref: NeedleRef): SVGElement[] => {
    if (label === null) return [];
    const { y, way } = edgeOf(ref.bed, heightPx);
    return [svg('text', { class: 'bed-label is-moved', x: at(ref.needle), y: way === 1 ? y - 34 : y + 34 + FONT_PX * 0.75, 'text-anchor': 'middle', 'font-size': FONT_PX + 3 }, label(ref.needle))];
  };
  if (move.do === 'transfer') {
    const a = tip(move.from), b = tip(move.to), isSame = move.from.bed === move.to.bed, lift = edgeOf(move.from.bed, heightPx).way * (isSame ? 18 : 0);
    return [
      svg('path', { class: 'bed-way', d: `M${a.x} ${a.y}Q${(a.x + b.x) / 2} ${(a.y + b.y) / 2 + lift} ${b.x} ${b.y}`, 'stroke-width': label === null ? 1.5 : 3 }),
      svg('circle', { class: 'bed-mark', cx: b.x, cy: b.y, r: label === null ? 2.5 : 5 }), ...name(move.to),
    ];
  }
  const { x, y } = tip(move.at), { way } = edgeOf(move.at.bed, heightPx);
  // A wrap is a loop round the needle; hold points into the gap, back to work points out of it.
  if (move.do === 'wrap') return [svg('ellipse', { class: 'bed-wrap', cx: x, cy: y + way * 8, rx: radius * 0.9, ry: 7 }), ...name(move.at)];
  const points = move.do === 'hold' ? way : -way, from = y + way * 22;
  return [
    svg('circle', { class: 'bed-ring', cx: x, cy: y, r: radius + 5 }), svg('path', { class: 'bed-arrow', d: `M${x - 8} ${from - points * 6}L${x} ${from + points * 6}L${x + 8} ${from - points * 6}Z` }), ...name(move.at),
  ];
}

/** The carriage at its side, with the way that it goes. */
function drawCarriage({ from, to }: BedPicture, { heightPx }: Frame, widthPx: number): SVGElement[] {
  const wide = Math.min(SIDE_PX, widthPx * 0.11) - 8, x = from === 'left' ? 2 : widthPx - wide - 2, y = heightPx / 2, way = to === 'right' ? 1 : -1, inner = from === 'left' ? x + wide : x;
  const goes = from === to ? [] : [svg('path', { class: 'carriage-way', d: `M${inner + way * 4} ${y - 12}L${inner + way * 22} ${y}L${inner + way * 4} ${y + 12}Z` })];
  return [svg('rect', { class: 'carriage', x, y: y - 56, width: wide, height: 112, rx: 9 }), svg('text', { class: 'carriage-side', x: x + wide / 2, y: y + 9, 'text-anchor': 'middle', 'font-size': 26 }, pageWords().stand.face.letter[from]), ...goes];
}
