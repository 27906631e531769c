import type { StandShow } from '../panel/stand-face.ts';
import { knitProgram } from '../machine/knit-program.ts';
import { knitSock } from '../pipeline/knit-sock.ts';
import { mirrorProgram } from '../plan/mirror-program.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { describeWork } from '../sheet/describe-work.ts';
import { findProgress, isPlain, roundOf } from '../sheet/find-progress.ts';
import { listHeld, listMoves, nameNeedles, statesAt } from '../sheet/hand-moves.ts';
import { noteAt } from '../sheet/knit-place.ts';
import type { KnitPlace } from '../sheet/knit-place.ts';
import type { KnitRecord } from '../sheet/knit-record.ts';
import { listWork } from '../sheet/list-work.ts';
import type { WorkItem } from '../sheet/list-work.ts';
import { labelNeedle } from '../sheet/needle-label.ts';
import type { NeedleNumbers } from '../sheet/needle-label.ts';
import { pageWords } from '../words/page-words.ts';

/** A sock at the stand: its knitting, and the stops of its work. */
export interface StandWork { readonly record: KnitRecord; readonly items: readonly WorkItem[] }

/** Left and right exchanged, in the program and in what is told of it. */
function mirrorRecord(record: KnitRecord): KnitRecord {
  const program = mirrorProgram(record.program), { grid, trace } = knitProgram(program), { plan } = record;
  if (grid === null) throw new Error('stand: a sock that can be knitted has no mirror image');
  return { ...record, program, grid, trace, plan: { ...plan, outerSide: plan.outerSide === 'left' ? 'right' : 'left' } };
}

/** Knits each sock once, however often its work is asked for; null for a file that cannot be knitted. */
export function createWorkshop(): (file: SockFile, isMirrored: boolean) => StandWork | null {
  let last: { readonly file: SockFile; readonly isMirrored: boolean; readonly work: StandWork | null } | null = null;
  return (file, isMirrored) => {
    if (last?.file === file && last.isMirrored === isMirrored) return last.work;
    const { sock } = knitSock(file), record = sock === null ? null : isMirrored ? mirrorRecord(sock) : sock;
    last = { file, isMirrored, work: record === null ? null : { record, items: listWork(record.program, record.trace) } };
    return last.work;
  };
}

/** Whether the sock under way is knitted with left and right exchanged. */
export const isMirrored = ({ sock, second }: KnitPlace): boolean => sock === 2 && second === 'mirrored';

/** What the voice says at a stop: a plain pass in few words, else every act. */
export function spokenAt({ record, items }: StandWork, { stop, sock }: KnitPlace, numbers: NeedleNumbers): string {
  const item = items[stop], words = pageWords();
  if (item === undefined) return words.stand.face[sock === 1 ? 'sockDone' : 'pairDone'];
  if (isPlain(item)) return words.stand.face.spoken(item.index, words.passes.side[item.to]);
  return describeWork(record, item, { words, numbers }).acts.join(' ');
}

/** A stop where hands have to do something other than pass the carriage, or where a new part begins. */
export function isCall({ items }: StandWork, stop: number): boolean {
  const item = items[stop];
  return item === undefined || !isPlain(item) || item.section !== items[stop - 1]?.section;
}

/** Everything that is read while knitting. */
export function showPlace(place: KnitPlace, work: StandWork, numbers: NeedleNumbers): StandShow {
  const { stop } = place, { items } = work, words = pageWords(), { face } = words.stand, progress = findProgress(items, stop);
  const heading = headingOf(place, work), item = items[stop], all = progress.passesDone + progress.passesLeft;
  const sections = progress.sections.map(({ section, first, stops, done }) => ({ name: words.timeline.parts[section], stops, done, isHere: stop >= first && stop < first + stops }));
  const note = noteAt(place, stop), said = note === '' ? '' : face.note(note);
  if (item === undefined) {
    const isLast = place.sock === 2;
    return {
      heading, part: isLast ? face.pairDone : face.sockDone, counter: '', count: '✓', of: '', round: '', inPart: '', acts: [isLast ? face.pairDoneNext : face.sockDoneNext], watch: '', note: said,
      next: '', held: '', knits: '', carriage: '', picture: null, sections, left: '',
    };
  }
  const described = describeWork(work.record, item, { words, numbers }), part = words.passes.sections[item.section], isPass = item.kind === 'pass';
  return {
    heading, part, counter: isPass ? face.counter : '', count: isPass ? String(item.index) : '', of: isPass ? face.of(all) : '',
    round: roundWords(item), inPart: isPass ? face.inPart(item.place, item.places) : '',
    acts: described.acts.length > 0 ? described.acts : [described.title], watch: watchWords(work, stop, described.watch, numbers), note: said, next: nextWords(work, stop, numbers),
    held: heldWords(work, stop, numbers), knits: item.kind === 'closing' ? '' : isPass ? face.knits(item.knitted) : face.castsOn(item.knitted),
    carriage: face.carriage[item.from],
    picture: pictureOf(work, item, numbers), sections, left: isPass ? face.left(part, progress.leftInSection, progress.passesLeft) : '',
  };
}

function headingOf(place: KnitPlace, { record }: StandWork): string {
  const { face } = pageWords().stand, { plan, foot } = record, isHanded = plan.toeSlantStitches > 0 && plan.toeKind === 'decreased';
  const other = foot.side === 'left' ? 'right' : 'left', parts = [plan.name, face.sockOf(place.sock)];
  if (isHanded && place.second === 'mirrored') parts.push(face.foot[place.sock === 1 ? foot.side : other]);
  else if (isMirrored(place)) parts.push(face.mirrored);
  return parts.join(' · ');
}

/** What to watch, where it is new: said at every pass it would not be read. */
function watchWords({ record, items }: StandWork, stop: number, watch: string, numbers: NeedleNumbers): string {
  const before = items[stop - 1];
  return before !== undefined && describeWork(record, before, { words: pageWords(), numbers }).watch === watch ? '' : watch;
}

function roundWords(item: WorkItem): string {
  const { face } = pageWords().stand, round = roundOf(item);
  return round === null ? '' : face.round(round.round, round.rounds, round.half);
}

function nextWords({ record, items }: StandWork, stop: number, numbers: NeedleNumbers): string {
  const item = items[stop + 1], words = pageWords(), { face } = words.stand;
  if (item === undefined) return face.nextEnd;
  const here = items[stop];
  if (isPlain(item) && item.section === here.section && item.knitted === here.knitted && item.beds.join() === here.beds.join()) return face.nextSame;
  const { title, acts } = describeWork(record, item, { words, numbers }), act = acts[0] ?? title;
  return item.section === items[stop]?.section ? face.nextAct(act) : face.next(words.passes.sections[item.section], act);
}

function heldWords({ record: { trace } }: StandWork, stop: number, numbers: NeedleNumbers): string {
  const { stand: { face } } = pageWords(), held = listHeld(trace, stop);
  if (held.length === 0) return face.noneHeld;
  return face.held(held.map(({ bed, needles }) => face.heldOn(face[bed === 'back' ? 'backBed' : 'frontBed'], nameNeedles(needles, trace.needlesPerBed, numbers), needles.length)).join('; '));
}

function pictureOf({ record: { trace } }: StandWork, item: WorkItem, numbers: NeedleNumbers): StandShow['picture'] {
  const { needlesPerBed } = trace;
  return {
    states: statesAt(trace, item.index), needlesPerBed, moves: listMoves(item), from: item.from, to: item.to, beds: item.beds,
    label: (needle) => labelNeedle(needle, needlesPerBed, numbers),
  };
}
