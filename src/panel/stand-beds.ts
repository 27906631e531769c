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

/** Pixels: room for the carriage at each side, the widest a needle takes, a bed's plate, half of the widest gap between the beds. */
const SIDE_PX = 74, WIDEST_PX = 34, PLATE_PX = 24, WIDEST_GAP_PX = 54;
/** How far a needle stands out into half the gap: at rest in its bed, at work, and pushed forward in hold. */
const REACH = { empty: 0.03, working: 0.4, held: 0.78 } as const;
/** So much of it is in the bed. */
const ROOT_PX = 6;
const FONT_PX = 17;
/** More moves than this are not labelled one by one: the words name them. */
const MOST_LABELS = 8;

interface Frame { readonly at: (needle: number) => number; readonly pitch: number; readonly heightPx: number; readonly gapPx: number; readonly first: number; readonly last: number }

/** Where a bed's edge lies, and which way its needles point. */
const edgeOf = (bed: Bed, { heightPx, gapPx }: Frame): { readonly y: number; readonly way: 1 | -1 } =>
  bed === 'back' ? { y: heightPx / 2 - gapPx, way: 1 } : { y: heightPx / 2 + gapPx, way: -1 };

function frameOf({ states, needlesPerBed, moves }: BedPicture, widthPx: number, heightPx: number): Frame {
  const used: number[] = moves.flatMap((move) => (move.do === 'transfer' ? [move.from.needle, move.to.needle] : [move.at.needle]));
  states.forEach((state, i) => { if (state !== NEEDLE.empty) used.push((i % needlesPerBed) + 1); });
  const first = Math.max(1, Math.min(...used) - 1), last = Math.min(needlesPerBed, Math.max(...used) + 1), side = Math.min(SIDE_PX, widthPx * 0.11);
  const pitch = Math.min(WIDEST_PX, (widthPx - 2 * side) / (last - first + 1)), left = (widthPx - pitch * (last - first + 1)) / 2;
  return { at: (needle) => left + (needle - first + 0.5) * pitch, pitch, heightPx, gapPx: Math.min(WIDEST_GAP_PX, heightPx / 2 - PLATE_PX - 1.5 * FONT_PX), first, last };
}

/** The beds from above, the back one at the top: held needles stand forward, those to move are ringed and named. */
export function drawBeds(picture: BedPicture, widthPx: number, heightPx: number): SVGSVGElement {
  const frame = frameOf(picture, widthPx, heightPx), { face } = pageWords().stand;
  const held = picture.states.filter((state) => state === NEEDLE.held).length;
  return svg('svg', { class: 'stand-beds', width: widthPx, height: heightPx, viewBox: `0 0 ${widthPx} ${heightPx}`, role: 'img', 'aria-label': face.bedsLabel(picture.moves.length, held) },
    ...(['back', 'front'] as const).flatMap((bed) => drawBed(picture, frame, bed, widthPx)),
    ...drawMiddle(picture, frame),
    ...picture.moves.flatMap((move, i) => drawMove(move, picture, frame, picture.moves.length <= MOST_LABELS && !isCrowded(move, picture.moves.slice(0, i), frame) ? picture.label : null)),
    ...drawCarriage(picture, frame, widthPx));
}

const stateName = (state: number): keyof typeof REACH => (state === NEEDLE.held ? 'held' : state === NEEDLE.working ? 'working' : 'empty');

function drawBed({ states, needlesPerBed, beds, label, moves }: BedPicture, frame: Frame, bed: Bed, widthPx: number): SVGElement[] {
  const { at, pitch, gapPx, first, last } = frame, { y, way } = edgeOf(bed, frame), { face } = pageWords().stand, start = BED[bed] * needlesPerBed, outer = y - way * PLATE_PX;
  const drawn: SVGElement[] = [svg('rect', {
    class: `bed-plate${beds.includes(bed) ? ' is-knitting' : ''}`, x: at(first) - pitch / 2, width: pitch * (last - first + 1), y: Math.min(y, outer), height: PLATE_PX, rx: 3,
  })];
  for (let needle = first; needle <= last; needle++) {
    const name = stateName(states[start + needle - 1]), tip = y + way * REACH[name] * gapPx, low = y - way * ROOT_PX, wide = Math.max(1.5, pitch * (name === 'empty' ? 0.24 : 0.5));
    drawn.push(svg('rect', { class: `needle is-${name}`, x: at(needle) - wide / 2, width: wide, y: Math.min(low, tip), height: Math.abs(tip - low), rx: wide / 3 }));
    if (name === 'held') drawn.push(svg('circle', { class: 'needle is-held', cx: at(needle), cy: tip, r: Math.max(2, pitch * 0.36) }));
  }
  const row = bed === 'back' ? outer - 10 : outer + 10 + FONT_PX * 0.75, carrying = Array.from({ length: needlesPerBed }, (_, i) => i + 1).filter((needle) => states[start + needle - 1] !== NEEDLE.empty);
  const ends = [carrying[0], carrying.at(-1)].filter((needle) => needle !== undefined);
  // Labels of needles to move go before those of the ends.
  const marked = moves.length <= MOST_LABELS ? moves.flatMap((move) => (move.do === 'transfer' ? [move.from, move.to] : [move.at])).filter((ref) => ref.bed === bed).map(({ needle }) => needle) : [];
  const isClear = (needle: number): boolean => marked.every((other) => Math.abs(at(other) - at(needle)) > 3.4 * FONT_PX);
  for (const needle of new Set(ends)) if (isClear(needle)) drawn.push(svg('text', { class: 'bed-label', x: at(needle), y: row, 'text-anchor': 'middle', 'font-size': FONT_PX }, label(needle)));
  // Its name where the labels leave room: a letter is about half as wide as high.
  const name = face[bed === 'back' ? 'backBed' : 'frontBed'], half = name.length * FONT_PX * 0.28 + 1.4 * FONT_PX;
  const isNamed = [...ends, ...marked].every((needle) => Math.abs(at(needle) - widthPx / 2) > half);
  if (isNamed) drawn.push(svg('text', { class: 'bed-name', x: widthPx / 2, y: row, 'text-anchor': 'middle', 'font-size': FONT_PX - 2 }, name));
  return drawn;
}

/** The middle of the machine, from which needles are counted. */
function drawMiddle({ needlesPerBed }: BedPicture, { at, heightPx, gapPx, first, last }: Frame): SVGElement[] {
  const middle = needlesPerBed / 2;
  if (middle < first || middle + 1 > last) return [];
  const x = (at(Math.floor(middle)) + at(Math.ceil(middle + 0.5))) / 2;
  return [svg('line', { class: 'bed-middle', x1: x, x2: x, y1: heightPx / 2 - gapPx - PLATE_PX, y2: heightPx / 2 + gapPx + PLATE_PX })];
}

/** Names of neighbours would lie over each other where needles are drawn close. */
function isCrowded(move: HandMove, before: readonly HandMove[], { at }: Frame): boolean {
  return move.do === 'transfer' && before.some((other) => other.do === 'transfer' && other.to.bed === move.to.bed && Math.abs(at(other.to.needle) - at(move.to.needle)) < 2.2 * FONT_PX);
}

function drawMove(move: HandMove, picture: BedPicture, frame: Frame, label: ((needle: number) => string) | null): SVGElement[] {
  const { at, pitch, gapPx } = frame, radius = Math.max(6, pitch * 0.5);
  const tipOf = ({ bed, needle }: NeedleRef, reach: number): { x: number; y: number } => {
    const { y, way } = edgeOf(bed, frame);
    return { x: at(needle), y: y + way * reach * gapPx };
  };
  const name = (ref: NeedleRef): SVGElement[] => {
    if (label === null) return [];
    const { y, way } = edgeOf(ref.bed, frame);
    return [svg('text', { class: 'bed-label is-moved', x: at(ref.needle), y: way === 1 ? y - PLATE_PX - 10 : y + PLATE_PX + 10 + FONT_PX * 0.75, 'text-anchor': 'middle', 'font-size': FONT_PX + 3 }, label(ref.needle))];
  };
  if (move.do === 'transfer') {
    const a = tipOf(move.from, REACH.working), b = tipOf(move.to, REACH.working), isSame = move.from.bed === move.to.bed, lift = edgeOf(move.from.bed, frame).way * (isSame ? 18 : 0);
    return [
      svg('path', { class: 'bed-way', d: `M${a.x} ${a.y}Q${(a.x + b.x) / 2} ${(a.y + b.y) / 2 + lift} ${b.x} ${b.y}`, 'stroke-width': label === null ? 1.5 : 3 }),
      svg('circle', { class: 'bed-mark', cx: b.x, cy: b.y, r: label === null ? 2.5 : 5 }), ...name(move.to),
    ];
  }
  const { way } = edgeOf(move.at.bed, frame), state = stateName(picture.states[BED[move.at.bed] * picture.needlesPerBed + move.at.needle - 1]), tip = tipOf(move.at, REACH[state]);
  // A wrap is a loop round the needle's stem; an arrow beyond the tip points out of the bed for hold, into it for work.
  if (move.do === 'wrap') return [svg('ellipse', { class: 'bed-wrap', cx: tip.x, cy: tipOf(move.at, REACH[state] * 0.45).y, rx: radius + 6, ry: 6 }), ...name(move.at)];
  const points = move.do === 'hold' ? way : -way, centre = tip.y + way * (radius + 17);
  return [
    svg('circle', { class: 'bed-ring', cx: tip.x, cy: tip.y, r: radius + 4 }),
    svg('path', { class: 'bed-arrow', d: `M${tip.x - 10} ${centre - points * 8}L${tip.x} ${centre + points * 8}L${tip.x + 10} ${centre - points * 8}Z` }), ...name(move.at),
  ];
}

/** The carriage at its side, with the way that it goes. */
function drawCarriage({ from, to }: BedPicture, { heightPx }: Frame, widthPx: number): SVGElement[] {
  const wide = Math.min(SIDE_PX, widthPx * 0.11) - 8, x = from === 'left' ? 2 : widthPx - wide - 2, y = heightPx / 2, way = to === 'right' ? 1 : -1, inner = from === 'left' ? x + wide : x;
  const goes = from === to ? [] : [svg('path', { class: 'carriage-way', d: `M${inner + way * 4} ${y - 12}L${inner + way * 22} ${y}L${inner + way * 4} ${y + 12}Z` })];
  return [svg('rect', { class: 'carriage', x, y: y - Math.min(56, heightPx * 0.34), width: wide, height: 2 * Math.min(56, heightPx * 0.34), rx: 9 }), svg('text', { class: 'carriage-side', x: x + wide / 2, y: y + 9, 'text-anchor': 'middle', 'font-size': 26 }, pageWords().stand.face.letter[from]), ...goes];
}
