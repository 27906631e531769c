import { type CloseCard, createCloseCard } from '../panel/close-card.ts';
import { button } from '../panel/dom.ts';
import type { PageState } from '../panel/page-state.ts';
import type { KnittedSock } from '../pipeline/result.ts';
import { createFormView, type FormView } from '../view/form-view.ts';
import type { Theme } from '../view/sock-view-types.ts';
import { pageWords } from '../words/page-words.ts';
import { formLoops, momentOf } from '../yarn/form-loops.ts';
import { type CloseNeedles, moveNeedles, openNeedles, SHOWN } from './close-needles.ts';
import { closeLabels, closeTitle, tellMoment } from './close-words.ts';

export interface CloseUp {
  /** After every change while the room is shown. `pass`: the one that is gone through, null at the closing. */
  render(state: PageState, knitted: KnittedSock, pass: number | null): void;
  leave(): void;
}

/** Seconds that one needle takes, and the wraps; milliseconds of a step, and of a still where the person asks for reduced motion. */
const NEEDLE_S = 4.2, WRAP_S = 4, STEP_MS = 700, STILL_MS = 2200;
/** A needle's own way at each step: at rest, forward, fed, latch shut, cast off, drawn, done. */
const STEPS = [0, 0.29, 0.44, 0.585, 0.675, 0.8, 1] as const;

/** The teacher's close-up of a pass: opened by its button, at the stitch that is pointed at or at the needle that tells most. */
export function createCloseUp(host: HTMLElement, beds: HTMLElement): CloseUp {
  const words = pageWords().close, calm = matchMedia('(prefers-reduced-motion: reduce)');
  let isOpen = false, shown: CloseNeedles | null = null, t = 0, state: PageState | null = null, knitted: KnittedSock | null = null, pass: number | null = null;
  let view: FormView | null = null, hasNoPicture = false, isLost = false, frame = 0, playing = false;

  const opener = button(words.open, { class: 'close-open', 'aria-expanded': 'false', title: words.openHelp }, () => { toggle(!isOpen); });
  const card: CloseCard = createCloseCard({
    close: () => { toggle(false); },
    goTo: (to) => { halt(); show(to); },
    play: () => { if (playing) { halt(); show(t); } else play(); },
    step: (way) => { step(way); },
    nextNeedle: () => { nextNeedle(); },
    shift: (way) => { shift(way); },
    lookFrom: (side) => { view?.lookFrom(side); },
    turnBy: (azimuth, height) => { view?.turnBy(azimuth, height); },
  });
  beds.append(opener);
  host.insertBefore(card.element, beds.nextSibling);

  const toggle = (next: boolean): void => {
    isOpen = next;
    halt();
    opener.setAttribute('aria-expanded', String(isOpen));
    host.closest('.page')?.classList.toggle('has-close-up', isOpen);
    card.element.hidden = !isOpen;
    if (isOpen) {
      openView();
      load(state?.spot?.loop ?? -1);
      card.focus();
      return;
    }
    view?.dispose();
    view = null;
    opener.focus();
  };
  const openView = (): void => {
    try {
      view = createFormView(card.canvas, themeNow());
      view.onDrawn(card.placeLabels);
      view.onContext((now) => {
        isLost = now === 'lost';
        show(t);
      });
    } catch {
      hasNoPicture = true;
    }
  };
  /** Another pass, sock or place: it begins anew. */
  const load = (loop: number): void => {
    shown = knitted === null || pass === null ? null : openNeedles(knitted, pass, loop);
    bring(0);
  };
  const bring = (at: number): void => {
    if (shown !== null) view?.setForming(shown.forming, shown.knitted.plan.yarns.map(({ colour }) => colour));
    show(at);
  };
  const show = (at: number): void => {
    if (!isOpen || state === null) return;
    t = Math.min(1, Math.max(0, at));
    const numbers = state.settings.needleNumbers;
    if (shown === null) {
      card.render({ title: words.name, t: 0, told: '', isPlaying: false, canShift: { left: false, right: false }, labels: [], followed: -1, instead: words.noPass, isIdle: true });
      return;
    }
    const formed = formLoops(shown.forming, t);
    view?.show(formed, shown.followed);
    card.render({
      title: closeTitle(shown, numbers), t, told: tellMoment(shown, formed, t, numbers), isPlaying: playing, labels: closeLabels(shown, numbers), followed: shown.followed,
      canShift: { left: shown.first > 0, right: shown.first + SHOWN < shown.all.length }, instead: hasNoPicture ? words.noPicture : isLost ? words.lost : '', isIdle: false,
    });
  };
  const halt = (): void => {
    cancelAnimationFrame(frame);
    clearTimeout(frame);
    playing = false;
  };
  /** Moments of the needle that is followed, in order. */
  const moments = ({ forming, followed }: CloseNeedles): number[] => {
    const { made, laid } = forming.scene.source.needles[followed], own = made < 0 ? [0, FED_BY] : STEPS;
    return [...own.map((way) => momentOf(forming, followed, way)), ...(laid.length > 0 ? [forming.crossing + 0.5 * (1 - forming.crossing), 1] : [])];
  };
  /** Runs to a moment, or is there at once where the person asks for reduced motion. */
  const runTo = (to: number, milliseconds: number, then: () => void): void => {
    const from = t, begun = performance.now();
    if (calm.matches || to <= from) { show(to); then(); return; }
    const tick = (now: number): void => {
      const share = Math.min(1, Math.max(0, (now - begun) / milliseconds));
      show(from + share * (to - from));
      if (share < 1) frame = requestAnimationFrame(tick);
      else then();
    };
    frame = requestAnimationFrame(tick);
  };
  const step = (way: 1 | -1): void => {
    halt();
    if (shown === null) return;
    const all = moments(shown), next = way > 0 ? all.find((moment) => moment > t + 1e-6) : all.filter((moment) => moment < t - 1e-6).at(-1);
    if (next !== undefined) { runTo(next, STEP_MS, () => undefined); return; }
    follow(nextInWay(shown, way));
    show(way > 0 ? t : moments(shown).at(-1) ?? t);
  };
  const follow = (to: number): void => {
    if (shown === null || to < 0 || to >= shown.all.length) return;
    const inside = to - shown.first;
    if (inside >= 0 && inside < shown.forming.scene.source.needles.length) { shown = { ...shown, followed: inside }; return; }
    shown = moveNeedles(shown, to);
    bring(momentOf(shown.forming, shown.followed, 0));
  };
  const nextNeedle = (): void => {
    halt();
    if (shown === null) return;
    follow(nextInWay(shown, 1));
    show(moments(shown)[0]);
  };
  const shift = (way: 1 | -1): void => {
    halt();
    if (shown === null) return;
    const { first, all, forming } = shown, to = way < 0 ? first - Math.ceil(SHOWN / 2) : first + SHOWN - 1 + Math.ceil(SHOWN / 2);
    if (way < 0 ? first === 0 : first + forming.scene.source.needles.length >= all.length) return;
    shown = moveNeedles(shown, to);
    bring(momentOf(shown.forming, shown.followed, 0));
  };
  const play = (): void => {
    if (shown === null) return;
    if (t >= 1) show(0);
    playing = true;
    if (calm.matches) { still(); return; }
    const { forming } = shown, crossingMs = 1000 * NEEDLE_S * forming.scene.source.needles.length;
    let before = performance.now();
    const tick = (now: number): void => {
      const spent = Math.min(100, Math.max(0, now - before));
      before = now;
      if (shown === null || !playing) return;
      const pace = t < forming.crossing ? forming.crossing / crossingMs : (1 - forming.crossing) / (1000 * WRAP_S), next = t + spent * pace;
      followCarriage(next);
      if (next >= 1) playing = false;
      show(next);
      if (playing) frame = requestAnimationFrame(tick);
    };
    frame = requestAnimationFrame(tick);
  };
  /** Reduced motion: still after still. */
  const still = (): void => {
    if (shown === null || !playing) return;
    const next = moments(shown).find((moment) => moment > t + 1e-6);
    if (next === undefined) {
      const before = shown.followed, at = shown.first + before + shown.forming.scene.way, inside = at - shown.first;
      if (inside < 0 || inside >= shown.forming.scene.source.needles.length) { playing = false; show(t); return; }
      follow(at);
      still();
      return;
    }
    show(next);
    frame = setTimeout(still, STILL_MS) as unknown as number;
  };
  /** While it plays, the words go from needle to needle with the carriage. */
  const followCarriage = (at: number): void => {
    if (shown === null) return;
    const { forming } = shown, { needles } = forming.scene.source, now = formLoops(forming, at).needles;
    const inWay = Array.from(needles.keys()), order = forming.scene.way > 0 ? inWay : inWay.reverse();
    const laying = at > forming.crossing ? order.find((i) => needles[i].laid.length > 0) : undefined;
    const busy = laying ?? order.find((i) => now[i].own > 0 && now[i].own < 1) ?? order.filter((i) => now[i].own >= 1).at(-1) ?? order[0];
    if (busy !== shown.followed) shown = { ...shown, followed: busy };
  };
  return {
    render: (next, sock, nextPass) => {
      const isOther = sock !== knitted || nextPass !== pass, colours = state?.settings.theme !== next.settings.theme;
      [state, knitted, pass] = [next, sock, nextPass];
      if (!isOpen) return;
      if (colours) view?.setTheme(themeNow());
      if (!isOther) return;
      halt();
      load(next.spot?.loop ?? -1);
    },
    leave: () => { if (isOpen) toggle(false); },
  };
}

/** Own way at which the carriage has gone by a needle that does not knit. */
const FED_BY = 0.6;

/** The next needle in the carriage's way. */
function nextInWay({ first, followed, forming: { scene: { way } } }: CloseNeedles, steps: 1 | -1): number { return first + followed + steps * way; }

function themeNow(): Theme { return document.documentElement.dataset['theme'] === 'dark' ? 'dark' : 'light'; }
