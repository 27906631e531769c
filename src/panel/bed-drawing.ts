import { NEEDLE } from '../machine/codes.ts';
import type { Bed } from '../plan/sock-file.ts';
import type { NeedleRef } from '../plan/step.ts';
import type { BedMove, BedNeedle, BedScene } from './bed-model.ts';
import { type BedPlaces, carriageAlong, DEPTH, tipDepth, xOf, yOf } from './bed-places.ts';

/** Colours of the page, and of the yarns. */
export interface BedLooks {
  readonly ink: string;
  readonly soft: string;
  readonly line: string;
  readonly field: string;
  readonly raised: string;
  readonly accent: string;
  readonly onAccent: string;
  readonly font: string;
  readonly yarns: readonly string[];
}

export interface BedShow {
  readonly looks: BedLooks;
  /** Yarn of a loop of the grid. */
  readonly yarnOf: (loop: number) => number;
  readonly bedNames: Readonly<Record<Bed, string>>;
  readonly sideNames: Readonly<Record<'left' | 'right', string>>;
  readonly labelOf: (needle: number) => string;
  readonly needlesPerBed: number;
  /** How far the carriage is on its way, 0 to 1. */
  readonly way: number;
  /** Needle to point out: under the pointer, or where a stitch that is pointed at elsewhere hangs or was made. */
  readonly spot: NeedleRef | null;
}

type Pen = CanvasRenderingContext2D;
const BEDS = ['back', 'front'] as const;

/** Draws the beds from above, back bed on top; the fabric hangs in the gap between them. */
export function drawBeds(pen: Pen, places: BedPlaces, scene: BedScene, show: BedShow): void {
  pen.clearRect(0, 0, places.width, places.height);
  pen.lineCap = 'round';
  pen.lineJoin = 'round';
  for (const bed of BEDS) drawPlate(pen, places, bed, show);
  drawSpot(pen, places, scene, show);
  drawNeedles(pen, places, scene, show);
  drawSideLinks(pen, places, scene, show);
  drawLoops(pen, places, scene, show);
  drawCourse(pen, places, scene, show);
  drawMarks(pen, places, scene, show);
  drawMoves(pen, places, scene, show);
  drawClosing(pen, places, scene, show);
  for (const bed of BEDS) drawNumbers(pen, places, bed, scene, show);
  drawCarriage(pen, places, scene, show);
}

function drawPlate(pen: Pen, places: BedPlaces, bed: Bed, { looks, bedNames, needlesPerBed }: BedShow): void {
  const left = xOf(places, places.span.first) - places.pitch, right = xOf(places, places.span.last) + places.pitch;
  const top = Math.min(yOf(places, bed, DEPTH.plate), yOf(places, bed, DEPTH.plateEnd)), depth = DEPTH.plateEnd - DEPTH.plate;
  pen.fillStyle = looks.field;
  pen.strokeStyle = looks.line;
  pen.lineWidth = 1;
  pen.beginPath();
  pen.roundRect(left, top, right - left, depth, 4);
  pen.fill();
  pen.stroke();
  // Between the two needles in the middle of the machine.
  const middle = xOf(places, (needlesPerBed + 1) / 2);
  if (middle > left && middle < right) {
    pen.strokeStyle = looks.soft;
    pen.beginPath();
    pen.moveTo(middle, yOf(places, bed, DEPTH.plate - 4));
    pen.lineTo(middle, yOf(places, bed, DEPTH.plateEnd));
    pen.stroke();
  }
  pen.fillStyle = looks.soft;
  pen.font = `600 12px ${looks.font}`;
  pen.textAlign = 'start';
  pen.textBaseline = 'middle';
  pen.fillText(bedNames[bed], left + 7, top + depth / 2 + 0.5);
}

/** A band behind the needle from edge to edge. */
function drawSpot(pen: Pen, places: BedPlaces, { first, last }: BedScene, { spot, looks }: BedShow): void {
  if (spot === null || spot.needle < first || spot.needle > last) return;
  const half = Math.max(5, places.pitch / 2), x = xOf(places, spot.needle), outer = yOf(places, spot.bed, DEPTH.plate), inner = yOf(places, spot.bed, tipDepth(NEEDLE.held) + 10);
  pen.save();
  pen.globalAlpha = 0.3;
  pen.fillStyle = looks.accent;
  pen.beginPath();
  pen.roundRect(x - half, Math.min(outer, inner), 2 * half, Math.abs(inner - outer), 4);
  pen.fill();
  pen.restore();
}

/** One path a state: what works stands out to the line, what is held is pushed beyond it, what is empty is drawn back. */
function drawNeedles(pen: Pen, places: BedPlaces, { needles }: BedScene, { looks }: BedShow): void {
  const breadth = Math.min(5, Math.max(1.6, places.pitch * 0.3));
  for (const state of [NEEDLE.empty, NEEDLE.working, NEEDLE.held]) {
    pen.strokeStyle = state === NEEDLE.empty ? looks.line : state === NEEDLE.held ? looks.accent : looks.soft;
    pen.lineWidth = state === NEEDLE.empty ? Math.max(1, breadth * 0.6) : breadth;
    pen.beginPath();
    for (const at of needles) {
      if (at.state !== state) continue;
      const x = xOf(places, at.needle);
      pen.moveTo(x, yOf(places, at.bed, DEPTH.plateEnd + 1));
      pen.lineTo(x, yOf(places, at.bed, tipDepth(state)));
    }
    pen.stroke();
  }
}

/** Where the fabric goes round from one bed to the other. */
function drawSideLinks(pen: Pen, places: BedPlaces, { sideLinks }: BedScene, { looks }: BedShow): void {
  pen.strokeStyle = looks.soft;
  pen.lineWidth = 1.2;
  pen.beginPath();
  for (const [a, b] of sideLinks) {
    const middle = (places.span.first + places.span.last) / 2, outward = (a.needle + b.needle) / 2 < middle ? -1 : 1;
    const [xa, xb] = [xOf(places, a.needle), xOf(places, b.needle)], bulge = outward * Math.max(6, places.pitch * 0.8);
    pen.moveTo(xa, yOf(places, a.bed, 80));
    pen.bezierCurveTo(xa + bulge, yOf(places, a.bed, 96), xb + bulge, yOf(places, b.bed, 96), xb, yOf(places, b.bed, 80));
  }
  pen.stroke();
}

/** Bows round the needles, open towards the gap in which the fabric hangs; a casing keeps pale yarn off a pale page. */
function drawLoops(pen: Pen, places: BedPlaces, { needles }: BedScene, { looks, yarnOf }: BedShow): void {
  const half = Math.min(6, Math.max(1.8, places.pitch * 0.4)), thick = Math.min(3, Math.max(1.6, places.pitch * 0.26));
  const byYarn = new Map<number, BedNeedle[]>();
  for (const at of needles) {
    if (at.loop < 0) continue;
    const yarn = yarnOf(at.loop);
    byYarn.set(yarn, [...(byYarn.get(yarn) ?? []), at]);
  }
  for (const [yarn, those] of byYarn) {
    pen.beginPath();
    for (const at of those) {
      for (let i = 0; i < at.stitches; i++) bow(pen, places, at, tipDepth(at.state) - 5 - 5 * i, half);
      for (let i = 0; i < at.wraps; i++) {
        const depth = DEPTH.wrap - 5 * i, x = xOf(places, at.needle);
        pen.moveTo(x - half, yOf(places, at.bed, depth - 2));
        pen.lineTo(x + half, yOf(places, at.bed, depth + 2));
      }
    }
    strokeYarn(pen, thick, looks.yarns[yarn] ?? looks.ink, looks);
  }
}

function bow(pen: Pen, places: BedPlaces, { bed, needle }: NeedleRef, depth: number, half: number): void {
  const x = xOf(places, needle), foot = yOf(places, bed, depth + 11), turn = yOf(places, bed, depth), back = yOf(places, bed, depth - 5);
  pen.moveTo(x - half, foot);
  pen.bezierCurveTo(x - half, turn, x - half, back, x, back);
  pen.bezierCurveTo(x + half, back, x + half, turn, x + half, foot);
}

function strokeYarn(pen: Pen, thick: number, colour: string, { ink }: BedLooks): void {
  pen.save();
  pen.strokeStyle = ink;
  pen.globalAlpha = 0.5;
  pen.lineWidth = thick + 1.2;
  pen.stroke();
  pen.restore();
  pen.strokeStyle = colour;
  pen.lineWidth = thick;
  pen.stroke();
}

/** The yarn of this pass from loop to loop, as far as the carriage has come, and from the last one to the carriage. */
function drawCourse(pen: Pen, places: BedPlaces, scene: BedScene, { looks, way }: BedShow): void {
  const { course, from, to, yarn, knittedCount } = scene, at = carriageAlong(places, scene, way), isMoving = way < 1 && from !== to;
  const states = new Map(scene.needles.map((needle) => [`${needle.bed} ${needle.needle}`, needle.state]));
  pen.beginPath();
  let isBegun = false;
  course.forEach((ref, i) => {
    const x = xOf(places, ref.needle), isBehind = from === 'left' ? x <= at : x >= at;
    if (isMoving && (!isBehind || i >= knittedCount)) return;
    const depth = i >= knittedCount ? DEPTH.wrap : tipDepth(states.get(`${ref.bed} ${ref.needle}`) ?? NEEDLE.working) + 8, y = yOf(places, ref.bed, depth);
    if (isBegun) pen.lineTo(x, y);
    else pen.moveTo(x, y);
    isBegun = true;
  });
  if (!isBegun) return;
  pen.lineTo(at, feederY(places, scene));
  strokeYarn(pen, Math.min(2.6, Math.max(1.8, places.pitch * 0.22)), looks.yarns[yarn] ?? looks.ink, looks);
}

/** Where the yarn leaves the carriage. */
function feederY(places: BedPlaces, { beds }: BedScene): number {
  return beds.length === 1 ? yOf(places, beds[0], 84) : places.height / 2;
}

/** What was done to a needle at this stop, between its number and the bed: a dot with a bar through it where it went into hold, a hollow ring where it came back, and a ring round the needle for a wrap. The same on either bed. */
function drawMarks(pen: Pen, places: BedPlaces, { needles }: BedScene, { looks }: BedShow): void {
  const size = Math.min(4, Math.max(3.2, places.pitch * 0.3));
  pen.fillStyle = looks.accent;
  pen.strokeStyle = looks.accent;
  pen.lineWidth = 1.8;
  for (const at of needles) {
    const x = xOf(places, at.needle);
    if (at.isNowHeld || at.isReturned) {
      const y = yOf(places, at.bed, DEPTH.mark);
      pen.beginPath();
      pen.ellipse(x, y, size, size, 0, 0, 2 * Math.PI);
      if (at.isNowHeld) {
        pen.fill();
        pen.moveTo(x - 2 * size, y);
        pen.lineTo(x + 2 * size, y);
      }
      pen.stroke();
    }
    if (!at.isWrapped) continue;
    pen.beginPath();
    pen.ellipse(x, yOf(places, at.bed, DEPTH.wrap), Math.max(4.5, places.pitch * 0.55), 6.5, 0, 0, 2 * Math.PI);
    pen.stroke();
  }
}

/** From needle to needle: across the gap, or in a small arc to a neighbour. */
function drawMoves(pen: Pen, places: BedPlaces, { moves }: BedScene, { looks }: BedShow): void {
  pen.strokeStyle = looks.accent;
  pen.fillStyle = looks.accent;
  // Many side by side are thin, or they would run together.
  pen.lineWidth = moves.length > 40 ? 0.8 : 1.5;
  for (const move of moves) drawMove(pen, places, move);
}

function drawMove(pen: Pen, places: BedPlaces, { from, to }: BedMove): void {
  const depth = 82, [xa, ya, xb, yb] = [xOf(places, from.needle), yOf(places, from.bed, depth), xOf(places, to.needle), yOf(places, to.bed, depth)];
  const isAcross = from.bed !== to.bed, middle = places.height / 2, towards = yOf(places, from.bed, depth + 18);
  pen.beginPath();
  pen.moveTo(xa, ya);
  if (isAcross) pen.bezierCurveTo(xa, middle, xb, middle, xb, yb);
  else pen.bezierCurveTo(xa, towards, xb, towards, xb, yb);
  pen.stroke();
  const head = Math.min(5, Math.max(3, places.pitch * 0.35)), inward = to.bed === 'back' ? 1 : -1;
  pen.beginPath();
  pen.moveTo(xb, yb - inward * 2);
  pen.lineTo(xb - head, yb + inward * head * 1.3);
  pen.lineTo(xb + head, yb + inward * head * 1.3);
  pen.closePath();
  pen.fill();
}

/** At the end: loops that are joined across the gap, or the chain in which they are bound off. */
function drawClosing(pen: Pen, places: BedPlaces, { grafts, bindOff, yarn }: BedScene, { looks }: BedShow): void {
  pen.beginPath();
  for (const [a, b] of grafts) {
    pen.moveTo(xOf(places, a.needle), yOf(places, a.bed, 80));
    pen.lineTo(xOf(places, b.needle), yOf(places, b.bed, 80));
  }
  bindOff.forEach((at, i) => {
    const [x, y] = [xOf(places, at.needle), yOf(places, at.bed, 90)];
    if (i === 0) pen.moveTo(x, y);
    else pen.bezierCurveTo(xOf(places, bindOff[i - 1].needle), yOf(places, at.bed, 104), x, yOf(places, at.bed, 104), x, y);
  });
  if (grafts.length + bindOff.length > 0) strokeYarn(pen, 2, looks.yarns[yarn] ?? looks.ink, looks);
}

/** The ends of the work first, then round numbers as far as there is room. */
function drawNumbers(pen: Pen, places: BedPlaces, bed: Bed, { needles }: BedScene, { looks, labelOf, spot }: BedShow): void {
  const carrying = needles.filter((at) => at.bed === bed && at.state !== NEEDLE.empty), ends = [carrying[0]?.needle, carrying.at(-1)?.needle];
  const step = [1, 2, 5, 10, 20, 50].find((count) => count * places.pitch >= 30) ?? 50, room = 30, taken: number[] = [];
  pen.textAlign = 'center';
  pen.textBaseline = 'middle';
  const put = (needle: number | undefined, isStrong: boolean): void => {
    if (needle === undefined || needle < places.span.first || needle > places.span.last) return;
    const x = xOf(places, needle);
    if (taken.some((other) => Math.abs(other - x) < room)) return;
    taken.push(x);
    pen.font = `${isStrong ? '600 ' : ''}12px ${looks.font}`;
    pen.fillStyle = isStrong ? looks.ink : looks.soft;
    pen.fillText(labelOf(needle), x, yOf(places, bed, DEPTH.number));
  };
  if (spot?.bed === bed) put(spot.needle, true);
  for (const needle of ends) put(needle, true);
  for (let needle = places.span.first; needle <= places.span.last; needle++) {
    const digits = Number(labelOf(needle).replace(/\D/g, ''));
    if (digits % step === 0) put(needle, false);
  }
}

/** Both halves cross together; the one that knits is dark, with its way on it. */
function drawCarriage(pen: Pen, places: BedPlaces, scene: BedScene, { looks, way, sideNames }: BedShow): void {
  const x = carriageAlong(places, scene, way), half = 18, isCrossing = scene.from !== scene.to, along = scene.to === 'right' ? 1 : -1;
  pen.fillStyle = looks.soft;
  pen.fillRect(x - 3, yOf(places, 'back', 50), 6, yOf(places, 'front', 50) - yOf(places, 'back', 50));
  for (const bed of BEDS) {
    const isKnitting = scene.beds.includes(bed), outer = yOf(places, bed, 22), inner = yOf(places, bed, 64);
    pen.fillStyle = isKnitting ? looks.ink : looks.raised;
    pen.strokeStyle = looks.soft;
    pen.lineWidth = 1.2;
    pen.beginPath();
    pen.roundRect(x - half, Math.min(outer, inner), 2 * half, Math.abs(inner - outer), 8);
    pen.fill();
    pen.stroke();
    if (!isCrossing || !isKnitting) continue;
    const y = (outer + inner) / 2;
    pen.strokeStyle = looks.raised;
    pen.lineWidth = 2.4;
    pen.beginPath();
    pen.moveTo(x - along * 8, y);
    pen.lineTo(x + along * 8, y);
    pen.moveTo(x + along * 2, y - 6);
    pen.lineTo(x + along * 8, y);
    pen.lineTo(x + along * 2, y + 6);
    pen.stroke();
  }
  pen.font = `600 12px ${looks.font}`;
  pen.fillStyle = looks.soft;
  pen.textAlign = 'center';
  pen.textBaseline = 'middle';
  for (const side of ['left', 'right'] as const) pen.fillText(sideNames[side], side === 'left' ? places.margin / 2 : places.width - places.margin / 2, yOf(places, 'front', DEPTH.number));
}
