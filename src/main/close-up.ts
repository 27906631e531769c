import { type CloseCard, createCloseCard } from '../panel/close-card.ts';
import { button } from '../panel/dom.ts';
import type { PageState } from '../panel/page-state.ts';
import type { KnittedSock } from '../pipeline/result.ts';
import { createFormView, type FormView } from '../view/form-view.ts';
import type { Theme } from '../view/sock-view-types.ts';
import { pickedLoop } from '../panel/picked-loop.ts';
import { pageWords } from '../words/page-words.ts';
import { formLoops, momentOf } from '../yarn/form-loops.ts';
import { type CloseNeedles, moveNeedles, openNeedles, SHOWN } from './close-needles.ts';
import { busyNeedle, momentsOf, nextInWay } from './close-steps.ts';
import { closeLabels, closeTitle, tellMoment } from './close-words.ts';

export interface CloseUp {
  /** After every change while the room is shown. `pass`: the one that is gone through, null at the cast-on and the closing. */
  render(state: PageState, knitted: KnittedSock, pass: number | null): void;
  leave(): void;
}

/** Seconds that one needle takes, and the wraps; milliseconds of a step, and of a still where the person asks for reduced motion. */
const NEEDLE_S = 4.2, WRAP_S = 4, STEP_MS = 700, STILL_MS = 2200;
/** A page that was away goes on where it was. */
const LONGEST_MS = 100;

class CloseDesk implements CloseUp {
  private readonly calm = matchMedia('(prefers-reduced-motion: reduce)');
  private readonly opener: HTMLButtonElement;
  private readonly card: CloseCard;
  private isOpen = false;
  private shown: CloseNeedles | null = null;
  private t = 0;
  private state: PageState | null = null;
  private knitted: KnittedSock | null = null;
  private pass: number | null = null;
  private view: FormView | null = null;
  private hasNoPicture = false;
  private isLost = false;
  private isPlaying = false;
  private isLarge = false;
  private frame = 0;
  private timer: ReturnType<typeof setTimeout> | undefined;

  constructor(private readonly host: HTMLElement, beds: HTMLElement) {
    const words = pageWords().close;
    this.opener = button(words.open, { class: 'close-open', 'aria-expanded': 'false', title: words.openHelp }, () => { this.toggle(!this.isOpen); });
    this.card = createCloseCard({
      close: () => { this.toggle(false); },
      escape: () => { if (this.isLarge) this.enlarge(false); else this.toggle(false); },
      enlarge: () => { this.enlarge(!this.isLarge); },
      goTo: (to) => { this.halt(); this.show(to); },
      play: () => { this.playOrPause(); },
      step: (way) => { this.step(way); },
      nextNeedle: () => { this.nextNeedle(); },
      shift: (way) => { this.shift(way); },
      lookFrom: (side) => { this.view?.lookFrom(side); },
      turnBy: (azimuth, height) => { this.view?.turnBy(azimuth, height); },
    });
    beds.append(this.opener);
    host.insertBefore(this.card.element, beds.nextSibling);
  }

  render(state: PageState, knitted: KnittedSock, pass: number | null): void {
    const isOther = knitted !== this.knitted || pass !== this.pass, before = this.state;
    Object.assign(this, { state, knitted, pass });
    if (!this.isOpen) return;
    this.view?.setTheme(themeNow());
    if (isOther) {
      this.halt();
      this.load();
    } else if (before?.settings.needleNumbers !== state.settings.needleNumbers) this.show(this.t);
  }

  leave(): void { if (this.isOpen) this.toggle(false, false); }

  private enlarge(isLarge: boolean): void {
    this.isLarge = isLarge;
    this.host.closest('.page')?.classList.toggle('has-large-close', isLarge);
    this.show(this.t);
  }

  private toggle(isOpen: boolean, takesFocus = true): void {
    if (!isOpen && this.isLarge) this.enlarge(false);
    this.isOpen = isOpen;
    this.halt();
    this.opener.setAttribute('aria-expanded', String(isOpen));
    this.host.closest('.page')?.classList.toggle('has-close-up', isOpen);
    this.card.element.hidden = !isOpen;
    if (isOpen) {
      this.openView();
      this.load();
      this.card.focus();
      return;
    }
    this.view?.dispose();
    this.view = null;
    if (takesFocus) this.opener.focus();
  }

  private openView(): void {
    try {
      this.view = createFormView(this.card.renewCanvas(), themeNow());
      this.view.onDrawn(this.card.placeLabels);
      this.view.onContext((now) => {
        this.isLost = now === 'lost';
        this.show(this.t);
      });
    } catch {
      this.hasNoPicture = true;
    }
  }

  /** Another pass or sock: it begins anew, round the stitch that is pointed at, or picked. */
  private load(): void {
    const { knitted, pass, state } = this;
    this.shown = knitted === null || pass === null ? null : openNeedles(knitted, pass, state === null ? -1 : state.spot?.loop ?? pickedLoop(state));
    this.bring(0);
  }

  private bring(t: number): void {
    const { shown } = this;
    if (shown !== null) this.view?.setForming(shown.forming, shown.knitted.plan.yarns.map(({ colour }) => colour));
    this.show(t);
  }

  private show(to: number): void {
    const { shown, state, card } = this, words = pageWords().close;
    if (!this.isOpen || state === null) return;
    this.t = Math.min(1, Math.max(0, to));
    if (shown === null) {
      card.render({ title: words.name, t: 0, told: '', isPlaying: false, canShift: { left: false, right: false }, labels: [], followed: -1, instead: words.noPass, isIdle: true, isLarge: this.isLarge });
      return;
    }
    const formed = formLoops(shown.forming, this.t), numbers = state.settings.needleNumbers;
    this.view?.show(formed, shown.followed);
    card.render({
      title: closeTitle(shown, numbers), t: this.t, told: tellMoment(shown, formed, this.t, numbers), isPlaying: this.isPlaying, labels: closeLabels(shown, numbers), followed: shown.followed,
      canShift: { left: shown.first > 0, right: shown.first + SHOWN < shown.all.length }, instead: this.hasNoPicture ? words.noPicture : this.isLost ? words.lost : '', isIdle: false, isLarge: this.isLarge,
    });
  }

  private halt(): void {
    cancelAnimationFrame(this.frame);
    clearTimeout(this.timer);
    this.isPlaying = false;
  }

  private step(way: 1 | -1): void {
    this.halt();
    const { shown, t } = this;
    if (shown === null) return;
    const all = momentsOf(shown), next = way > 0 ? all.find((moment) => moment > t + 1e-6) : all.filter((moment) => moment < t - 1e-6).at(-1);
    if (next !== undefined) { this.runTo(next); return; }
    this.follow(nextInWay(shown, way));
    this.show(this.t);
  }

  /** Runs to a moment, or is there at once where the person asks for reduced motion. */
  private runTo(to: number): void {
    const from = this.t, begun = performance.now();
    if (this.calm.matches || to <= from) { this.show(to); return; }
    const tick = (now: number): void => {
      const share = Math.min(1, Math.max(0, (now - begun) / STEP_MS));
      this.show(from + share * (to - from));
      if (share < 1) this.frame = requestAnimationFrame(tick);
    };
    this.frame = requestAnimationFrame(tick);
  }

  /** False where there is no such needle. */
  private follow(to: number): boolean {
    const { shown } = this;
    if (shown === null || to < 0 || to >= shown.all.length) return false;
    const inside = to - shown.first;
    if (inside >= 0 && inside < shown.forming.scene.source.needles.length) this.shown = { ...shown, followed: inside };
    else {
      this.shown = moveNeedles(shown, to);
      this.bring(momentOf(this.shown.forming, this.shown.followed, 0));
    }
    return true;
  }

  private nextNeedle(): void {
    this.halt();
    if (this.shown === null || !this.follow(nextInWay(this.shown, 1))) return;
    this.show(momentsOf(this.shown)[0]);
  }

  private shift(way: 1 | -1): void {
    this.halt();
    if (this.shown === null) return;
    const { first, all } = this.shown, half = Math.ceil(SHOWN / 2);
    if (way < 0 ? first === 0 : first + SHOWN >= all.length) return;
    this.shown = moveNeedles(this.shown, way < 0 ? first - half : first + SHOWN - 1 + half);
    this.bring(momentOf(this.shown.forming, this.shown.followed, 0));
  }

  private playOrPause(): void {
    if (this.isPlaying || this.shown === null) {
      this.halt();
      this.show(this.t);
      return;
    }
    this.halt();
    if (this.t >= 1) this.t = 0;
    this.isPlaying = true;
    this.followCarriage();
    if (this.calm.matches) { this.still(); return; }
    let before = performance.now();
    const tick = (now: number): void => {
      const spent = Math.min(LONGEST_MS, Math.max(0, now - before));
      before = now;
      this.advance(spent);
      if (this.isPlaying) this.frame = requestAnimationFrame(tick);
    };
    this.frame = requestAnimationFrame(tick);
  }

  private advance(milliseconds: number): void {
    const { shown, t } = this;
    if (shown === null) return;
    const { crossing, scene: { source: { needles } } } = shown.forming, pace = t < crossing ? crossing / (NEEDLE_S * needles.length) : (1 - crossing) / WRAP_S;
    this.t = Math.min(1, t + pace * milliseconds / 1000);
    this.isPlaying = this.t < 1;
    this.followCarriage();
    this.show(this.t);
  }

  /** Reduced motion: still after still, from needle to needle. */
  private still(): void {
    const { shown } = this;
    if (shown === null || !this.isPlaying) return;
    const next = momentsOf(shown).find((moment) => moment > this.t + 1e-6), to = nextInWay(shown, 1) - shown.first;
    if (next === undefined && to >= 0 && to < shown.forming.scene.source.needles.length) {
      this.shown = { ...shown, followed: to };
      this.still();
      return;
    }
    this.isPlaying = next !== undefined;
    this.show(next ?? this.t);
    if (this.isPlaying) this.timer = setTimeout(() => { this.still(); }, STILL_MS);
  }

  /** While it plays, the words go from needle to needle with the carriage. */
  private followCarriage(): void {
    if (this.shown !== null) this.shown = { ...this.shown, followed: busyNeedle(this.shown, this.t) };
  }
}

/** The teacher's close-up of a pass: opened by its button, at the stitch that is pointed at or at the needle that tells most. */
export function createCloseUp(host: HTMLElement, beds: HTMLElement): CloseUp { return new CloseDesk(host, beds); }

function themeNow(): Theme { return document.documentElement.dataset['theme'] === 'dark' ? 'dark' : 'light'; }
