import type { DrawnDetail } from '../view/sock-view-types.ts';
import { pageWords } from '../words/page-words.ts';
import { button, el, setAttributes, setText } from './dom.ts';
import type { PageState } from './page-state.ts';
import { inFigures } from './units.ts';

/** How close the picture is brought. */
export type LookStep = 'whole' | 'heel' | 'toe' | 'few' | 'one';

export interface LookHooks {
  readonly show: (step: LookStep) => void;
  readonly setCut: (share: number) => void;
  readonly setInsideOut: (isInsideOut: boolean) => void;
  /** What the picture drew last; null without a picture. */
  readonly detail: () => Pick<DrawnDetail, 'pixelsPerStitch' | 'level'> | null;
  /** How far can be cut at most. */
  readonly mostCut: number;
}

export interface LookBar {
  readonly toggle: HTMLElement;
  readonly element: HTMLElement;
  render(state: PageState): void;
}

const LOOK_STEPS: readonly LookStep[] = ['whole', 'heel', 'toe', 'few', 'one'];
/** Steps of the slider, percent; of a sock that lies flat it takes one side off, or none. */
const CUT_STEP = 5, FLAT_STEP = 50;
/** Milliseconds after which the line about the picture is read anew while it is open: the camera is moved in many ways. */
const READ_MS = 300;

/** A button, and behind it how close to look, how far to cut the sock away, and its inside turned out. */
export function createLookBar(hooks: LookHooks): LookBar {
  const words = pageWords().stitch.look;
  const slider = el('input', { type: 'range', min: 0, max: 100 * hooks.mostCut, step: CUT_STEP }), cutWords = el('output', { class: 'look-words' });
  slider.addEventListener('input', () => { hooks.setCut(slider.valueAsNumber / 100); });
  const inside = el('input', { type: 'checkbox' });
  inside.addEventListener('change', () => { hooks.setInsideOut(inside.checked); });
  const cut = el('label', { class: 'look-cut' }, el('span', {}, words.cut), slider, cutWords);
  const drawn = el('p', { class: 'look-drawn' });
  const steps = LOOK_STEPS.map((step) => ({ step, element: button(words.steps[step], { class: 'view-button', 'data-look': step }, () => { hooks.show(step); }) }));
  const element = el('div', { class: 'look-bar', id: 'look-bar', role: 'group', 'aria-label': words.label, hidden: true },
    el('div', { class: 'look-steps', role: 'group', 'aria-label': words.zoom }, ...steps.map((one) => one.element)),
    el('div', { class: 'look-row' }, cut, el('label', { class: 'look-inside' }, inside, words.insideOut)), drawn);
  const readDrawn = (): void => {
    const detail = hooks.detail();
    setText(drawn, detail === null ? '' : words.detail(words.drawn[detail.level], pixelWords(detail.pixelsPerStitch)));
  };
  let timer: ReturnType<typeof setInterval> | undefined, isNew = true;
  const open = (isOpen: boolean): void => {
    element.hidden = !isOpen;
    setAttributes(toggle, { 'aria-expanded': String(isOpen) });
    clearInterval(timer);
    if (!isOpen) return;
    readDrawn();
    timer = setInterval(readDrawn, READ_MS);
  };
  const toggle = button(words.open, { class: 'look-toggle', 'aria-expanded': 'false', 'aria-controls': 'look-bar', title: words.label }, () => { open(element.hidden !== false); });
  return {
    toggle, element,
    render: ({ settings: { cut: share, isInsideOut, pose, room, arrangement }, companion }) => {
      const percent = Math.round(100 * share), isChanged = percent > 0 || isInsideOut, isOff = pose === 'beds' || room === 'passes' || room === 'lesson';
      const isFlat = pose === 'flat', shown = percent === 0 ? '' : isFlat ? words.oneSide : words.percent(percent);
      setAttributes(slider, {
        max: String(isFlat ? FLAT_STEP : 100 * hooks.mostCut), step: String(isFlat ? FLAT_STEP : CUT_STEP),
        'aria-valuetext': isFlat && percent > 0 ? words.oneSide : words.cutWords(percent),
      });
      slider.valueAsNumber = isFlat && percent > 0 ? FLAT_STEP : percent;
      setText(cutWords, shown);
      inside.checked = isInsideOut;
      // What hangs from needles is neither turned nor cut; the lesson shows its own socks as it wants them.
      inside.disabled = slider.disabled = isOff;
      // A growing sock, and two beside each other, are shown whole.
      const whyWhole = room === 'passes' ? words.growsWhole : companion !== null && arrangement === 'beside' ? words.pairWhole : null;
      for (const { step, element: part } of steps) {
        if (step !== 'heel' && step !== 'toe') continue;
        part.disabled = whyWhole !== null;
        setAttributes(part, { title: whyWhole });
      }
      toggle.classList.toggle('is-on', isChanged);
      // A sock that comes up cut open says at once what to do about it.
      if (isNew && isChanged) open(true);
      isNew = false;
    },
  };
}

function pixelWords(pixels: number): string { return inFigures(pixels < 10 ? pixels.toFixed(1) : String(Math.round(pixels))); }
