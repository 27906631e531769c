import type { PageState } from '../panel/page-state.ts';
import { jumpBySection } from '../panel/section-marks.ts';
import type { PageStore } from './page-store.ts';
import type { PassesBook } from './passes-book.ts';
import { createPlayClock } from './play-clock.ts';

/** Where in the work the page is, and how it gets on: the page's pass, and after the last one the closing, which is a stop of its own. */
export interface PassPlace {
  /** The stop of a sock, the cast-on while no pass was chosen; asked for anew with every state. */
  open(book: PassesBook, state: PageState): number;
  /** By hand: what plays stops. */
  goTo(stop: number): void;
  stepBy(stops: number): void;
  jump(direction: 1 | -1): void;
  /** Plays that way, or stops if it does already. */
  play(direction: 1 | -1): void;
  halt(): void;
  /** Which way it plays; 0 while it stands. */
  playing(): 1 | 0 | -1;
  speed(): number;
  setSpeed(passesPerSecond: number): void;
}

const FIRST_SPEED = 2;

export function createPassPlace(store: PageStore, choosePass: (pass: number) => void): PassPlace {
  let book: PassesBook | null = null, stop = 0, isClosing = false, speed = FIRST_SPEED;
  const last = (): number => (book === null ? 0 : book.items.length - 1);
  /** False where there is nothing beyond. */
  const move = (wanted: number): boolean => {
    const next = Math.min(last(), Math.max(0, wanted));
    if (next === stop) return false;
    isClosing = next === last();
    stop = next;
    choosePass(Math.min(next, last() - 1));
    return true;
  };
  const clock = createPlayClock({ stopsPerSecond: () => speed, stepBy: (stops) => {
    if (move(stop + stops)) return true;
    // The last frame of a play: its button is to say so.
    queueMicrotask(() => { store.update({}); });
    return false;
  } });
  const halt = (): void => {
    if (clock.direction() === 0) return;
    clock.stop();
    store.update({});
  };
  const goTo = (wanted: number): void => {
    halt();
    move(wanted);
  };
  return {
    open: (opened, { bedsPass }) => {
      book = opened;
      const lastPass = last() - 1, pass = Math.min(lastPass, bedsPass ?? 0);
      isClosing = isClosing && pass === lastPass;
      stop = isClosing ? lastPass + 1 : pass;
      return stop;
    },
    goTo,
    stepBy: (stops) => { goTo(stop + stops); },
    jump: (direction) => { goTo(jumpBySection(book?.marks ?? [], stop, direction)); },
    play: (direction) => {
      if (clock.direction() === direction) { halt(); return; }
      clock.stop();
      // From the end it plays from the start again, and the other way round.
      if (stop === (direction > 0 ? last() : 0)) move(direction > 0 ? 0 : last());
      clock.start(direction);
      store.update({});
    },
    halt,
    playing: clock.direction,
    speed: () => speed,
    setSpeed: (next) => {
      speed = next;
      store.update({});
    },
  };
}
