import { createBedCard } from '../panel/bed-card.ts';
import { el, setText } from '../panel/dom.ts';
import { createFinishedCard } from '../panel/finished-card.ts';
import { type FinishedSock, layFinished } from '../panel/finished-model.ts';
import type { PageState, Spot } from '../panel/page-state.ts';
import { jumpBySection } from '../panel/section-marks.ts';
import { createWayBar } from '../panel/way-bar.ts';
import { createWorkCard } from '../panel/work-card.ts';
import { usualPass } from '../pipeline/usual-pass.ts';
import { describeWork } from '../sheet/describe-work.ts';
import { labelNeedle } from '../sheet/needle-label.ts';
import { pageWords } from '../words/page-words.ts';
import { createBorrowedPose } from './borrowed-pose.ts';
import { createFinishedShapes } from './finished-shapes.ts';
import { createPassesBook, type PassesBook } from './passes-book.ts';
import { listenToPassKeys } from './pass-keys.ts';
import { createPlayClock } from './play-clock.ts';
import type { Room, RoomTools } from './rooms.ts';
import { createTween } from './tween.ts';

/** From this speed on the carriage jumps from side to side. */
const FAST = 10;
const FIRST_SPEED = 2;
/** The carriage's way takes this long, and no longer than this share of the time to the next pass. */
const CROSSING_MS = 450, CROSSING_SHARE = 0.75;

/** The work pass by pass: the beds from above over the fabric that hangs from them, the finished sock, the words, and the way through all stops. */
export function createPassesRoom({ host, store, keeper, choose, choosePass }: RoomTools): Room {
  const cards = buildCards(host), words = pageWords().timeline;
  const pose = createBorrowedPose({ store, keeper, choose });
  const shapes = createFinishedShapes(() => { renderAgain(); });
  let book: PassesBook | null = null, isClosing = false, speed = FIRST_SPEED, shownStop = -1, laid: FinishedSock | null = null;

  const renderAgain = (): void => { store.update({}); };
  const lastStop = (): number => (book === null ? 0 : book.items.length - 1);
  const stopOf = ({ bedsPass, knitted }: PageState): number => {
    const lastPass = lastStop() - 1, pass = Math.min(lastPass, bedsPass ?? (knitted === null ? 0 : usualPass(knitted)));
    if (pass !== lastPass) isClosing = false;
    return isClosing ? lastPass + 1 : pass;
  };
  /** False where there is nothing beyond. */
  const goTo = (wanted: number): boolean => {
    if (book === null) return false;
    const state = store.state(), stop = Math.min(lastStop(), Math.max(0, wanted)), pass = Math.min(stop, lastStop() - 1);
    if (stop === stopOf(state)) return false;
    isClosing = stop === lastStop();
    if (state.bedsPass === pass) renderAgain();
    else choosePass(pass);
    return true;
  };
  const stepBy = (stops: number): boolean => goTo(stopOf(store.state()) + stops);
  const clock = createPlayClock({ stopsPerSecond: () => speed, stepBy });
  const play = (direction: 1 | -1): void => {
    const isOn = clock.direction() === direction;
    clock.stop();
    if (!isOn) {
      // From the end it plays from the start again, and the other way round.
      if (stopOf(store.state()) === (direction > 0 ? lastStop() : 0)) goTo(direction > 0 ? 0 : lastStop());
      clock.start(direction);
    }
    renderAgain();
  };
  const halt = (): void => {
    if (clock.direction() === 0) return;
    clock.stop();
    renderAgain();
  };
  const byHand = (move: () => void): void => {
    halt();
    move();
  };
  const point = (spot: Spot | null): void => { store.update({ spot }); };
  const beds = createBedCard(cards.beds, { point }), work = createWorkCard(cards.work);
  const finished = createFinishedCard(cards.finished, { point, goTo: (pass) => { byHand(() => goTo(pass)); } });
  const tween = createTween((way) => { beds.setWay(way); });
  const way = createWayBar(cards.way, {
    goTo: (stop) => { byHand(() => goTo(stop)); }, stepBy: (stops) => { byHand(() => stepBy(stops)); }, play,
    setSpeed: (next) => {
      speed = next;
      renderAgain();
    },
  });
  const keys = listenToPassKeys({
    stepBy: (stops) => { byHand(() => stepBy(stops)); },
    jump: (direction) => { byHand(() => goTo(jumpBySection(book?.marks ?? [], stopOf(store.state()), direction))); },
    toEnd: (direction) => { byHand(() => goTo(direction > 0 ? Infinity : 0)); },
    play: () => { play(1); }, halt,
  });

  const show = (state: PageState, { knitted, bedBook, items, marks }: PassesBook): void => {
    const stop = stopOf(state), { plan, trace, grid, fabric } = knitted, item = items[stop], scene = bedBook.sceneAt(stop);
    const yarnColours = plan.yarns.map(({ colour }) => colour), spot = state.spot ?? null, numbers = state.settings.needleNumbers;
    const tell = (index: number) => (index < items.length ? describeWork(knitted, items[index], { words: pageWords(), numbers }) : null);
    const told = tell(stop), isOneOn = stop === shownStop + 1, playing = clock.direction();
    if (told === null) return;
    if (stop !== shownStop) tween.begin(isOneOn && speedOf(playing, speed) < FAST ? Math.min(CROSSING_MS, (CROSSING_SHARE * 1000) / speedOf(playing, speed)) : 0);
    beds.render(scene, { grid, yarnColours, labelOf: (needle) => labelNeedle(needle, trace.needlesPerBed, numbers), needlesPerBed: trace.needlesPerBed, spot });
    work.render({ item, words: told, next: tell(stop + 1), scene, yarn: plan.yarns[item.yarn] ?? null }, stop !== shownStop && (playing === 0 || speed === 1));
    const shape = shapes.of(knitted);
    if (!(shape instanceof Float64Array)) laid = null;
    else if (laid?.fabric !== fabric) laid = layFinished(fabric, grid, trace, shape);
    finished.render({ sock: laid, status: laid === null ? shape === 'missing' ? 'missing' : 'waiting' : 'here', trace, item, yarnColours, spot });
    way.render({ stop, last: items.length - 1, playing, speed, title: told.title, marks, trace, yarns: plan.yarns });
    shownStop = stop;
  };
  return {
    render: (state) => {
      pose.borrow();
      keys.listen();
      const { knitted } = state;
      setText(cards.note, knitted === null ? words.noSock : state.problems.length > 0 ? words.kept : '');
      for (const card of cards.all) card.hidden = knitted === null;
      if (knitted === null) return;
      book = createPassesBook(knitted, book);
      if (state.posed !== null) shapes.know(book.knitted, state.posed);
      show(state, book);
    },
    leave: () => {
      clock.stop();
      tween.stop();
      keys.deafen();
      shapes.stop();
      shownStop = -1;
      pose.giveBack();
    },
  };
}

/** A step by hand counts as a slow play. */
function speedOf(playing: 1 | 0 | -1, speed: number): number {
  return playing === 0 ? 1 : speed;
}

interface Cards {
  readonly beds: HTMLElement;
  readonly work: HTMLElement;
  readonly finished: HTMLElement;
  readonly way: HTMLElement;
  readonly note: HTMLElement;
  readonly all: readonly HTMLElement[];
}

function buildCards(host: HTMLElement): Cards {
  const words = pageWords().timeline;
  const beds = el('section', { class: 'card beds-card', 'aria-label': words.beds }), work = el('section', { class: 'card work-card', 'aria-label': words.work });
  const finished = el('section', { class: 'card finished-card', 'aria-label': words.finished }), way = el('section', { class: 'card way-card', 'aria-label': words.way });
  const note = el('p', { class: 'passes-note', role: 'status' });
  host.append(note, beds, way, el('div', { class: 'passes-side' }, work, finished));
  return { beds, work, finished, way, note, all: [beds, work, finished, way] };
}
