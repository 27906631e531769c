import { NEEDLE } from '../machine/codes.ts';
import { ease, type FormStage, latchOf, mix, stageOf } from './form-cycle.ts';
import { bowOf, fitSizes, halfGapMm, neighbourOf, shareOfNeighbour, standAt } from './form-fit.ts';
import type { FormItem, FormScene } from './form-scene.ts';
import { blend, type FormSizes, inFabric, madePoint, type NeedleStand, oldPoint, onNeedle, sideOf, type Spot, wrapPoint } from './form-shapes.ts';
import { measureAlong, pieceLengths } from './measure-along.ts';
import { PART, PIECE_POINTS, POINT_STRIDE, type YarnLay } from './yarn-lay.ts';

/** A needle at one moment of a pass; along it is counted from the bed's edge forwards, mm. */
export interface FormedNeedle {
  /** Inside of the hook's bend. */
  readonly reach: number;
  /** 0 on the hook, pi back along the stem. */
  readonly latch: number;
  /** Its own way through the pass, 0..1; of a needle that does not knit, whether the carriage has gone by. */
  readonly own: number;
  readonly stage: FormStage;
}

/** A pass as far as the carriage has come: x to the right, y up, z towards the knitter in front of the machine, mm. */
export interface FormedLoops {
  readonly lay: YarnLay;
  readonly needles: readonly FormedNeedle[];
  /** Where the yarn leaves the carriage. */
  readonly feeder: Spot;
  /** Yarn drawn from the feeder since the pass came into the picture, mm. */
  readonly fedMm: number;
  /** How far the wraps after the pass are laid, 0..1; 1 where there are none. */
  readonly wrapped: number;
}

export interface Forming {
  readonly scene: FormScene;
  readonly size: FormSizes;
  readonly halfGap: number;
  /** Share of 0..1 in which the carriage crosses; after it wraps are laid. */
  readonly crossing: number;
  /** Where the feeder is at 0 and at the end of the crossing. */
  readonly fromX: number;
  readonly toX: number;
  /** Yarn below the feeder at 0, mm. */
  readonly begunMm: number;
}

/** Pitches that the carriage goes while one needle knits. On a machine some needles are on their way at once; one after the other is easier to follow. Chosen by eye. */
const SPAN = 1.15;
/** A needle's own way when the feeder goes by. */
const FED = 0.33;
/** Pitches behind the feeder in which the yarn comes to lie. */
const SETTLE = 0.3;
/** Length of the yarn from the last stitch on that goes through the feeder, pitches. */
const SUPPLY = 4;

export function prepareForming(scene: FormScene): Forming {
  const { source: { pitchMm, loopMm, needles, diameterMm, grid }, columnX, way, hasBothBeds } = scene, halfGap = halfGapMm(pitchMm, hasBothBeds);
  const made = needles.find((at) => at.made >= 0)?.made ?? needles[0].loops[0];
  const size = fitSizes({ needle: scene.size, pitchMm, diameterMm: diameterMm[grid.yarn[made]], loopMm, halfGap });
  const [first, last] = way > 0 ? [columnX[0], columnX[columnX.length - 1]] : [columnX[columnX.length - 1], columnX[0]];
  const forming: Forming = {
    scene, size, halfGap, begunMm: 0, crossing: needles.some(({ laid }) => laid.length > 0) ? 0.82 : 1,
    fromX: first - way * (FED * SPAN + 0.35) * pitchMm, toX: last + way * ((1 - FED) * SPAN + 0.35) * pitchMm,
  };
  return { ...forming, begunMm: formLoops(forming, 0).fedMm };
}

/** Where in the crossing, 0..1, a needle is so far on its own way. */
export function momentOf({ scene, fromX, toX, crossing }: Forming, column: number, own: number): number {
  const x = scene.columnX[column] + scene.way * (own - FED) * SPAN * scene.source.pitchMm;
  return Math.min(1, Math.max(0, crossing * (x - fromX) / (toX - fromX)));
}

interface Moment { readonly forming: Forming; readonly stands: readonly NeedleStand[]; readonly feederX: number; readonly eye: Spot; readonly wrapped: number }

/**
 * The yarn and the needles of a pass at t, 0..1: as the carriage comes into the picture, as it has crossed, and its wraps laid.
 * Every new loop is laid across its needle, caught by the hook, drawn through all that hangs on the needle, and pulled down by a row,
 * so that what stands on the needles at 1 is what stood there at 0, a row on. Needles and their timing are chosen by eye;
 * which loops there are, whose yarn they have and what they are drawn through is the grid's.
 */
export function formLoops(forming: Forming, t: number): FormedLoops {
  const { scene, size, halfGap, crossing, fromX, toX, begunMm } = forming, { source, columnX, way, thread } = scene, { pitchMm, needles } = source;
  const feederX = mix(fromX, toX, Math.min(1, t / crossing)), wrapped = crossing < 1 ? ease(t, crossing + 0.02, 0.98) : 1;
  const own = Float64Array.from(columnX, (x) => Math.min(1, Math.max(0, way * (feederX - x) / (SPAN * pitchMm) + FED)));
  const stands = needles.map(({ made, state }, i): NeedleStand => {
    if (made < 0) return { own: 0, isKnitting: false, reach: state === NEEDLE.held ? size.needle.clear : size.needle.rest, wait: state === NEEDLE.held ? size.needle.wait : size.needle.rest, pulled: 0, bow: 0 };
    const stand = standAt(own[i], size.needle, size.depthMm);
    return { ...stand, bow: bowOf(stand, size, source.loopMm, halfGap) };
  });
  const eye = eyeAt(forming, feederX), moment: Moment = { forming, stands, feederX, eye, wrapped };
  const points = layPoints(moment), lay: YarnLay = { thread, points, ups: new Int8Array(4 * thread.pieceCount * PIECE_POINTS), diameterMm: source.diameterMm };
  aimUps(lay, scene);
  measureAlong(lay);
  return {
    lay, feeder: eye, fedMm: layLength(scene, lay, eye) - begunMm, wrapped,
    needles: stands.map((stand, i) => ({
      reach: stand.reach, latch: stand.isKnitting ? latchOf(stand.own, size.needle, size.depthMm) : needles[i].state === NEEDLE.held ? Math.PI : 0,
      own: own[i], stage: stand.isKnitting ? stageOf(own[i]) : 'rest',
    })),
  };
}

function eyeAt({ scene, size, halfGap }: Forming, x: number): Spot {
  const bed = scene.source.needles.find(({ made }) => made >= 0)?.bed ?? 0, { needle, diameterMm } = size;
  const eye = onNeedle({ x: 0, y: 0, z: 0 }, x, needle.feed + 0.4 * needle.latch, needle.stem + 1.2 * diameterMm + 0.3 * needle.latch);
  eye.z = scene.hasBothBeds ? 0 : sideOfBed(bed) * (eye.z - halfGap);
  return eye;
}

/** +1 where a bed's needles point towards the knitter: the back bed. */
export const sideOfBed = (bed: number): 1 | -1 => (bed === 0 ? -1 : 1);

function layPoints(moment: Moment): Float32Array {
  const { scene } = moment.forming, { thread } = scene, points = new Float32Array(POINT_STRIDE * thread.pieceCount * PIECE_POINTS), spot: Spot = { x: 0, y: 0, z: 0 };
  const put = (piece: number, k: number): void => { points.set([spot.x, spot.y, spot.z], POINT_STRIDE * (PIECE_POINTS * piece + k)); };
  for (let piece = 0; piece < thread.pieceCount; piece++) {
    if (thread.part[piece] === PART.tail) continue;
    for (let k = 0; k < PIECE_POINTS; k++) {
      placePoint(spot, piece, k, moment);
      leanOver(spot, piece, k, moment);
      if (isFed(scene, piece)) comeFromFeeder(spot, piece, k, points, moment);
      put(piece, k);
    }
  }
  for (let length = 0; length + 1 < thread.lengthStart.length; length++) {
    for (const piece of [thread.lengthStart[length], thread.lengthStart[length + 1] - 1]) {
      for (let k = 0; k < PIECE_POINTS; k++) {
        placeTail(spot, piece, k, points, moment);
        put(piece, k);
      }
    }
  }
  return points;
}

const isFed = ({ fed, firstMade, lastTail }: FormScene, piece: number): boolean => fed >= 0 && piece >= firstMade && piece <= lastTail;

/** Neighbours of one row, whose ends meet half way. */
function isBeside(item: FormItem, other: FormItem): boolean { return item.kind === other.kind && item.row === other.row && item.loop !== other.loop; }

/** Whether the yarn of a piece runs to the right. */
function runOfPiece({ items, thread, source: { grid }, way }: FormScene, piece: number): 1 | -1 {
  const item = items[piece];
  if (item.kind === 'made') return way;
  const { loop } = item, before = items[piece - 1], after = items[piece + 1];
  const isNext = (other: FormItem | undefined, at: number): other is FormItem => other !== undefined && thread.part[at] === PART.loop && isBeside(item, other);
  if (isNext(after, piece + 1)) return after.topX >= item.topX ? 1 : -1;
  if (isNext(before, piece - 1)) return before.topX <= item.topX ? 1 : -1;
  const right = grid.rightOf[loop] >= 0 && grid.rightOf[loop] === grid.yarnAfter[loop];
  return right ? 1 : -1;
}

/** A point of a stitch or wrap as its needle has it; before the feeder has come, where it will be laid. */
function placePoint(out: Spot, piece: number, number: number, { forming, stands, wrapped }: Moment): Spot {
  const { scene, size, halfGap } = forming, item = scene.items[piece], stand = stands[item.column], bed = scene.source.needles[item.column].bed;
  const k = runOfPiece(scene, piece) > 0 ? number : PIECE_POINTS - 1 - number;
  switch (item.kind) {
    case 'fabric': inFabric(out, k, item, size, stand); break;
    case 'old': oldPoint(out, k, item, size, stand); break;
    case 'made': madePoint(out, k, item.topX, size, stand); break;
    case 'wrap': wrapPoint(out, number, item, wrapSide(scene, piece), false, size, stand); break;
    case 'laid': layWrap(out, piece, number, forming, stand, wrapped); break;
  }
  out.z = sideOfBed(bed) * (out.z - halfGap);
  return out;
}

/** -1 where the yarn of a wrap comes from the left. */
function wrapSide({ items, source: { grid }, way }: FormScene, piece: number): 1 | -1 {
  const item = items[piece];
  if (item.kind === 'laid') return way > 0 ? -1 : 1;
  const before = grid.yarnBefore[item.loop];
  return before >= 0 && grid.needle[before] > grid.needle[item.loop] ? 1 : -1;
}

/** A wrap on its way: from over the needle forward round the end of its hook, down, and back under the stem. */
function layWrap(out: Spot, piece: number, k: number, { scene, size }: Forming, stand: NeedleStand, wrapped: number): void {
  const { needle, pitchMm } = size, item = scene.items[piece], from = wrapSide(scene, piece), x = item.topX + from * (0.5 - (k + 0.5) / PIECE_POINTS) * pitchMm;
  const ahead = stand.reach + 0.9 * needle.hook, line: Spot = { x: 0, y: 0, z: 0 };
  const forward = ease(wrapped, 0, 0.35), under = ease(wrapped, 0.3, 0.6), back = ease(wrapped, 0.55, 0.8), round = ease(wrapped, 0.75, 1);
  const along = mix(mix(needle.feed, ahead, forward), stand.wait + needle.latch, back), above = mix(1.6 * needle.hook, -1.4 * needle.hook, under);
  onNeedle(line, x, along, above);
  blend(out, line, wrapPoint({ x: 0, y: 0, z: 0 }, k, item, from, true, size, stand), round);
}

/** Draws the ends of stitches beside each other together; those of one that is still being drawn do not draw back. */
function leanOver(spot: Spot, piece: number, k: number, moment: Moment): void {
  const { items, thread } = moment.forming.scene, beside = piece + (sideOf(k) < 0 ? -1 : 1), other = items[beside];
  if (shareOfNeighbour(k) === 0 || thread.part[beside] !== PART.loop || !isBeside(items[piece], other)) return;
  const share = shareOfNeighbour(k) * (other.kind === 'made' ? moment.stands[other.column].pulled : 1);
  const theirs = placePoint({ x: 0, y: 0, z: 0 }, beside, neighbourOf(k), moment);
  spot.y = mix(spot.y, theirs.y, share);
  spot.z = mix(spot.z, theirs.z, share);
}

/** How far a needle's hook has taken the yarn, 0..1. */
const caughtAt = ({ own }: NeedleStand): number => ease(own, 0.38, 0.5);

/** Yarn that the feeder has not laid yet stands above it. Behind it the yarn runs straight from the last stitch to the feeder, until a hook takes it or a hand lays it round. */
function comeFromFeeder(spot: Spot, piece: number, k: number, points: Float32Array, moment: Moment): void {
  const { forming: { scene, size: { pitchMm } }, feederX, eye, wrapped, stands } = moment, { way, items } = scene, item = items[piece];
  const behind = way * (feederX - item.topX) / pitchMm - (k + 0.5) / PIECE_POINTS + 0.5;
  if (behind <= 0) {
    spot.x = eye.x;
    spot.y = eye.y - behind * pitchMm;
    spot.z = eye.z;
    return;
  }
  const last = comesFrom(piece, points, moment), far = Math.max(1e-6, way * (eye.x - last.x) / pitchMm), at: Spot = { x: eye.x - way * behind * pitchMm, y: eye.y, z: eye.z };
  if (item.kind === 'laid') { blend(spot, chordAt(last, eye, behind / far, at.x), spot, ease(wrapped, 0, 0.3)); return; }
  blend(spot, at, spot, ease(behind, 0, SETTLE));
  blend(spot, chordAt(last, eye, behind / far, at.x), spot, caughtAt(stands[item.column]));
}

function chordAt(last: Spot, eye: Spot, share: number, x: number): Spot {
  const chord = blend({ x: 0, y: 0, z: 0 }, eye, last, Math.min(1, share));
  chord.x = x;
  return chord;
}

/** Where the yarn of a piece comes from: the end of the one before, or of a neighbour that is not shown. */
function comesFrom(piece: number, points: Float32Array, moment: Moment): Spot {
  const { scene } = moment.forming, at = POINT_STRIDE * (PIECE_POINTS * piece - 1);
  return scene.thread.part[piece - 1] === PART.tail ? beforeFirst(moment) : { x: points[at], y: points[at + 1], z: points[at + 2] };
}

/** The foot of the stitch before the first one shown, which the carriage has made outside of the picture; on the other bed: across the gap. */
function beforeFirst({ forming: { scene, size, halfGap } }: Moment): Spot {
  const { source: { grid, needles }, items, firstMade, way } = scene, { loop, topX, column } = items[firstMade], before = grid.yarnBefore[loop], side = sideOfBed(needles[column].bed);
  const isAcross = before >= 0 && grid.bed[before] !== grid.bed[loop], foot = { x: topX - way * (isAcross ? 0.6 : 0.7) * size.pitchMm, y: -size.rootMm - 0.3 * size.rowMm, z: side * (0.3 * size.pitchMm - halfGap) };
  if (isAcross && !scene.hasBothBeds) foot.z += side * size.pitchMm;
  if (before < 0) foot.y -= 2 * size.pitchMm;
  return foot;
}

/** Out of the picture: to the feeder and up, on along the row, across to the other bed, or hanging where the yarn was cut. */
function placeTail(out: Spot, piece: number, k: number, points: Float32Array, moment: Moment): void {
  const { scene, size: { pitchMm } } = moment.forming, { thread, items, source: { grid } } = scene, isFirst = thread.lengthStart.includes(piece);
  const at = POINT_STRIDE * PIECE_POINTS * (isFirst ? piece + 1 : piece) - (isFirst ? 0 : POINT_STRIDE), end: Spot = { x: points[at], y: points[at + 1], z: points[at + 2] };
  const { loop } = items[piece], step = (isFirst ? PIECE_POINTS - k : k + 1) / PIECE_POINTS;
  if (piece === scene.lastTail) { supply(out, end, k, moment); return; }
  if (isFirst && piece + 1 === scene.firstMade) { leadIn(out, end, step, moment); return; }
  const next = isFirst ? grid.yarnBefore[loop] : grid.yarnAfter[loop], inner = at + (isFirst ? POINT_STRIDE : -POINT_STRIDE), outward = Math.sign(end.x - points[inner]) || 1;
  if (next < 0) { blend(out, end, { x: end.x + outward * 0.4 * pitchMm, y: end.y - 3 * pitchMm, z: end.z }, step); return; }
  const across = grid.bed[next] === grid.bed[loop] ? 0 : (grid.bed[next] === 0 ? 2 : -2) * pitchMm;
  blend(out, end, { x: end.x + outward * (across === 0 ? 1 : 0.5) * pitchMm, y: end.y, z: end.z + across }, step);
}

/** Straight from its last stitch to the feeder, then up, ever farther apart: its end is out of the picture. */
function supply(out: Spot, end: Spot, k: number, { forming: { scene, size: { pitchMm } }, eye }: Moment): void {
  const beyond = SUPPLY * (k + 0.5) / PIECE_POINTS, behind = scene.way * (eye.x - scene.items[scene.lastTail].topX) / pitchMm - 0.5;
  if (beyond > behind) blend(out, eye, { ...eye, y: eye.y + pitchMm * (beyond - behind) * (1 + 0.5 * beyond) }, 1);
  else blend(out, end, eye, beyond / behind);
}

/** To the first stitch from what was knitted before it. */
function leadIn(out: Spot, end: Spot, step: number, moment: Moment): void {
  const { scene, size: { pitchMm } } = moment.forming, { source: { grid, needles }, items, firstMade, way } = scene, { loop, column } = items[firstMade], before = grid.yarnBefore[loop];
  const foot = beforeFirst(moment), isCut = before < 0, across = isCut || grid.bed[before] === grid.bed[loop] ? 0 : 2 * pitchMm * sideOfBed(needles[column].bed);
  if (step <= 0.5) blend(out, end, foot, 2 * step);
  else blend(out, foot, { x: foot.x - way * (isCut ? 0.1 : 0.7) * pitchMm, y: foot.y - (isCut ? 2 * pitchMm : 0), z: foot.z + across }, 2 * step - 1);
}

/** All yarn of the pass below the feeder, from what leads to its first stitch on. */
function layLength({ fed, firstMade, lastTail }: FormScene, lay: YarnLay, eye: Spot): number {
  if (fed < 0) return 0;
  const lengths = pieceLengths(lay);
  let sum = eye.y - lay.points[POINT_STRIDE * (PIECE_POINTS * (lastTail + 1) - 1) + 1];
  for (let piece = firstMade - 1; piece <= lastTail; piece++) sum += lengths[piece];
  return sum;
}

/** Ups away from the bed's gap, square to the yarn; heights are not told, since nothing lies in a cloth's plane here. */
function aimUps({ points, ups, thread }: YarnLay, { items, source: { needles } }: FormScene): void {
  for (let i = 0; i < thread.pieceCount * PIECE_POINTS; i++) {
    const last = thread.pieceCount * PIECE_POINTS - 1, a = POINT_STRIDE * Math.max(0, i - 1), b = POINT_STRIDE * Math.min(last, i + 1);
    const tx = points[b] - points[a], ty = points[b + 1] - points[a + 1], tz = points[b + 2] - points[a + 2], square = tx * tx + ty * ty + tz * tz || 1;
    const item = items[Math.floor(i / PIECE_POINTS)], side = -sideOfBed(needles[item.column].bed), dot = (side * tz) / square;
    let x = -dot * tx, y = -dot * ty, z = side - dot * tz, size = Math.sqrt(x * x + y * y + z * z);
    if (size < 0.05) [x, y, z, size] = [0, 1, 0, 1];
    ups.set([Math.round(127 * x / size), Math.round(127 * y / size), Math.round(127 * z / size), 0], 4 * i);
  }
}
