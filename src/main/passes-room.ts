import { type BedCard, createBedCard } from '../panel/bed-card.ts';
import { setText } from '../panel/dom.ts';
import { createFinishedCard, type FinishedCard } from '../panel/finished-card.ts';
import { type FinishedSock, layFinished, loopsOfStop } from '../panel/finished-model.ts';
import type { PageState, Spot } from '../panel/page-state.ts';
import { pickLoop } from '../panel/picked-loop.ts';
import { createWayBar, type WayBar } from '../panel/way-bar.ts';
import { createWorkCard, type WorkCard } from '../panel/work-card.ts';
import { describeWork, type WorkWords } from '../sheet/describe-work.ts';
import { labelNeedle } from '../sheet/needle-label.ts';
import type { Lit } from '../view/sock-view-types.ts';
import { pageWords } from '../words/page-words.ts';
import { createCloseUp } from './close-up.ts';
import { createFinishedShapes } from './finished-shapes.ts';
import type { GrowthState } from './growth-desk.ts';
import { listenToPassKeys } from './pass-keys.ts';
import { createPassPlace, type PassPlace } from './pass-place.ts';
import { createPassesBook, type PassesBook } from './passes-book.ts';
import { buildPassesFrame } from './passes-frame.ts';
import type { Room, RoomTools } from './rooms.ts';
import { litByPick } from './stitch-desk.ts';
import { createTween } from './tween.ts';

/** From this speed on the carriage jumps from side to side; below it, it takes so long, and no longer than this share of the time to the next pass. */
const FAST = 10, CROSSING_MS = 450, CROSSING_SHARE = 0.75;

/** The work pass by pass: the beds from above over the fabric that hangs from them, the finished sock, the words, and the way through all stops. */
export function createPassesRoom({ host, store, growth, view, choosePass }: RoomTools): Room {
  const frame = buildPassesFrame(host), words = pageWords().timeline, place = createPassPlace(store, choosePass);
  const shapes = createFinishedShapes(() => { store.update({}); });
  const point = (spot: Spot | null): void => { store.update({ spot }); };
  const pick = (loop: number): void => {
    const { knitted } = store.state();
    if (knitted !== null) store.update({ picked: pickLoop(knitted.grid, loop) });
  };
  const cards: Cards = {
    beds: createBedCard(frame.beds, { point, pick }), work: createWorkCard(frame.work),
    finished: createFinishedCard(frame.finished, { point, goTo: (loop, pass) => { pick(loop); place.goTo(pass); } }), way: createWayBar(frame.way, place),
  };
  const tween = createTween(cards.beds.setWay), keys = listenToPassKeys(place), closeUp = createCloseUp(host, frame.beds);
  growth.onState((state) => { setText(frame.growth, growthWords(state)); });
  let book: PassesBook | null = null, laid: FinishedSock | null = null, stop = -1, litKey = '';

  const layDown = ({ knitted: { fabric, grid, trace } }: PassesBook, positions: Float64Array | string): FinishedSock | null => {
    if (typeof positions === 'string') return null;
    return laid?.fabric === fabric ? laid : layFinished(fabric, grid, trace, positions);
  };
  const show = (state: PageState, opened: PassesBook): void => {
    const before = stop, playing = place.playing(), shape = shapes.of(opened.knitted);
    stop = place.open(opened, state);
    laid = layDown(opened, shape);
    if (stop !== before) tween.begin(crossingMs(stop - before, playing === 0 ? 1 : place.speed()));
    drawStop(cards, { book: opened, state, stop, isNew: stop !== before, place, laid, isMissing: shape === 'missing' });
    const pass = Math.min(stop, opened.items.length - 2), spot = state.spot?.loop ?? -1, picked = litByPick(state), key = `${opened.key} ${stop} ${spot} ${picked[0] ?? ''}`;
    if (growth.state().pass !== pass && (stop !== before || book !== opened)) growth.show(pass);
    if (key !== litKey) view?.setLit(litOf(opened, stop, spot < 0 ? picked : [spot, ...picked], picked[0] ?? null));
    litKey = key;
    book = opened;
    closeUp.render(state, opened.knitted, opened.items[stop].kind === 'pass' ? stop : null);
  };
  return {
    render: (state) => {
      const { knitted, posed } = state;
      keys.listen();
      setText(frame.note, knitted === null ? words.noSock : state.problems.length > 0 ? words.kept : '');
      for (const part of frame.all) part.hidden = knitted === null;
      if (knitted === null) return;
      const opened = createPassesBook(knitted, book);
      if (posed !== null) shapes.know(opened.knitted, posed);
      show(state, opened);
    },
    leave: () => {
      place.halt();
      tween.stop();
      keys.deafen();
      closeUp.leave();
      shapes.stop();
      growth.show(null);
      view?.setLit(null);
      stop = -1;
      litKey = '';
    },
  };
}

interface Cards { readonly beds: BedCard; readonly work: WorkCard; readonly finished: FinishedCard; readonly way: WayBar }

interface Stop {
  readonly book: PassesBook;
  readonly state: PageState;
  readonly stop: number;
  /** Another stop than the one drawn before. */
  readonly isNew: boolean;
  readonly place: PassPlace;
  readonly laid: FinishedSock | null;
  readonly isMissing: boolean;
}

function drawStop(cards: Cards, { book, state, stop, isNew, place, laid, isMissing }: Stop): void {
  const { knitted, bedBook, items, marks } = book, { plan, trace, grid } = knitted, item = items[stop], scene = bedBook.sceneAt(stop);
  const yarnColours = plan.yarns.map(({ colour }) => colour), spot = state.spot ?? null, picked = litByPick(state), numbers = state.settings.needleNumbers, playing = place.playing();
  const tell = (index: number): WorkWords => describeWork(knitted, items[index], { words: pageWords(), numbers });
  const told = tell(stop);
  cards.beds.render(scene, { grid, yarnColours, labelOf: (needle) => labelNeedle(needle, trace.needlesPerBed, numbers), needlesPerBed: trace.needlesPerBed, spot: spot ?? (picked.length === 0 ? null : { loop: picked[0], from: 'words' }) });
  cards.work.render(
    { item, words: told, next: stop + 1 < items.length ? tell(stop + 1) : null, scene, yarn: plan.yarns[item.yarn] ?? null },
    isNew && (playing === 0 || place.speed() === 1));
  cards.finished.render({ sock: laid, status: laid !== null ? 'here' : isMissing ? 'missing' : 'waiting', trace, item, yarnColours, spot, picked });
  cards.way.render({ stop, last: items.length - 1, playing, speed: place.speed(), title: told.title, marks, trace, yarns: plan.yarns, picked: picked.map((loop) => grid.pass[loop]) });
}

/** How long the carriage takes: only a single step on is watched. */
function crossingMs(stops: number, speed: number): number {
  return stops === 1 && speed < FAST ? Math.min(CROSSING_MS, (1000 * CROSSING_SHARE) / speed) : 0;
}

/** The loops of a stop, its wraps included, and those that are pointed at or picked. */
function litOf({ knitted: { trace, grid }, items }: PassesBook, stop: number, pointed: readonly number[], strongest: number | null): Lit {
  const record = trace.passes[stop];
  if (record === undefined) return { first: 0, end: 0, loops: [...loopsOfStop({ grid }, trace, items[stop]), ...pointed], strongest };
  return { first: record.firstLoop, end: trace.passes[stop + 1]?.firstLoop ?? record.endLoop, loops: pointed, strongest };
}

function growthWords({ pass, isRelaxed, progress, failure }: GrowthState): string {
  const { growth } = pageWords().timeline;
  if (failure !== null) return growth.failed(failure);
  if (pass === null) return progress > 0 ? growth.growing(Math.floor(100 * progress)) : '';
  if (progress < 1) return growth.growing(Math.floor(100 * progress));
  return isRelaxed ? growth.atRest : growth.between;
}
