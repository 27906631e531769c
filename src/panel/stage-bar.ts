import type { PoseName } from '../shape/pose.ts';
import type { ViewPreset } from '../view/sock-view-types.ts';
import { pageWords } from '../words/page-words.ts';
import { button, el, setAttributes, setText } from './dom.ts';
import { hasMeasures } from './fit-words.ts';
import { svg } from './svg.ts';
import type { PageState } from './page-state.ts';
import { inFigures } from './units.ts';

export interface StageBar { render(state: PageState): void }

export interface StageHooks {
  readonly choosePose: (pose: PoseName) => void;
  readonly showPreset: (preset: ViewPreset) => void;
  readonly reset: () => void;
  readonly zoomBy: (factor: number) => void;
  /** The picture alone over the whole page, or everything again. */
  readonly showLarge: (isLarge: boolean) => void;
}

const POSES: readonly PoseName[] = ['flat', 'tube', 'beds', 'worn'];
const PRESETS: readonly ViewPreset[] = ['side', 'three-quarter', 'front', 'back', 'sole'];
/** Views from which a sock that lies flat is seen edge on. */
const EDGE_ON: readonly ViewPreset[] = ['front', 'back', 'sole'];
export const ZOOM_STEP = 1.25;

/** Pose switch, views and zoom over the picture, and how its shape stands under it. */
export function createStageBar(top: HTMLElement, bottom: HTMLElement, hooks: StageHooks): StageBar {
  const say = pageWords().stage;
  const inputs = POSES.map((pose) => {
    const input = el('input', { type: 'radio', name: 'pose', value: pose });
    input.addEventListener('change', () => { if (input.checked) hooks.choosePose(pose); });
    return { pose, input, label: el('label', {}, input, say.poses[pose]) };
  });
  const poseSwitch = el('fieldset', { class: 'segments' }, el('legend', { class: 'visually-hidden' }, say.poseOf),
    ...inputs.map(({ label }) => label));
  let preset: ViewPreset = 'side';
  let drawn: PageState | null = null;
  const show = (next: ViewPreset): void => {
    preset = next;
    hooks.showPreset(next);
    if (drawn !== null) showWords(drawn);
  };
  const presets = PRESETS.map((preset) => ({ preset, element: button(say.views[preset], { class: 'view-button', 'data-view': preset }, () => { show(preset); }) }));
  const views = el('div', { class: 'view-buttons', role: 'group', 'aria-label': say.viewOf },
    ...presets.map(({ element }) => element),
    button('−', { class: 'view-button is-sign', 'aria-label': say.zoomOut }, () => { hooks.zoomBy(1 / ZOOM_STEP); }),
    button('+', { class: 'view-button is-sign', 'aria-label': say.zoomIn }, () => { hooks.zoomBy(ZOOM_STEP); }),
    button(say.reset, { class: 'view-button', 'data-view': 'reset' }, hooks.reset), largeButton(hooks));
  top.append(poseSwitch, views);

  const bar = el('progress', { class: 'stage-progress', max: 1, 'aria-label': say.relaxing });
  const mark = el('span', { class: 'stage-mark', 'aria-hidden': 'true' }, '!'), sentence = el('span', { class: 'stage-sentence' });
  const words = el('p', { class: 'stage-words', role: 'status' }, mark, sentence);
  bottom.append(words, bar);
  const showWords = (state: PageState): void => {
    const { text, isUnsettled } = shapeWords(state);
    const isEdgeOn = state.shape.kind === 'settled' && state.settings.pose === 'flat' && EDGE_ON.includes(preset);
    setText(sentence, isEdgeOn ? say.edgeOn(text) : text);
    setAttributes(words, { 'data-shape': state.shape.kind });
    words.classList.toggle('is-unsettled', isUnsettled);
    mark.hidden = !isUnsettled;
  };
  return {
    render: (state) => {
      // The machine is looked at from the front, all else from the side, and nothing comes to lie edge on: so the picture has it (view/sock-view-types.ts).
      const before = drawn?.settings.pose, { pose: now } = state.settings;
      if ((before === 'beds') !== (now === 'beds') || (now === 'flat' && before !== 'flat' && EDGE_ON.includes(preset))) preset = 'side';
      drawn = state;
      // From under the machine there is no sole to see.
      for (const { preset, element } of presets) setText(element, preset === 'sole' && state.settings.pose === 'beds' ? say.below : say.views[preset]);
      for (const { pose, input } of inputs) input.checked = pose === state.settings.pose;
      const { shape } = state;
      bar.hidden = shape.kind !== 'relaxing';
      if (shape.kind === 'relaxing') bar.value = shape.fraction;
      showWords(state);
    },
  };
}

/** For a projector, or a closer look. Escape takes it back too, as from any sheet. */
function largeButton({ showLarge }: StageHooks): HTMLElement {
  const words = pageWords().stage.large;
  let isLarge = false;
  const set = (next: boolean): void => {
    isLarge = next;
    setAttributes(element, { 'aria-pressed': String(isLarge), title: isLarge ? words.isOn : words.isOff });
    showLarge(isLarge);
  };
  const element = button('', { class: 'view-button is-sign', 'aria-label': words.name, 'aria-pressed': 'false', title: words.isOff }, () => { set(!isLarge); });
  element.append(svg('svg', { viewBox: '0 0 16 16', width: 14, height: 14, 'aria-hidden': 'true' },
    svg('path', { d: 'M9.5 2.5h4v4m0-4-5 5M6.5 13.5h-4v-4m0 4 5-5', fill: 'none', stroke: 'currentColor', 'stroke-width': 1.6 })));
  window.addEventListener('keydown', ({ key }) => {
    if (key === 'Escape' && isLarge && document.querySelector('dialog[open]') === null) set(false);
  });
  return element;
}

/** How the shape in the picture stands, and whether that asks for care. */
export function shapeWords({ shape, posed, settings, file }: Pick<PageState, 'shape' | 'posed' | 'settings' | 'file'>): { readonly text: string; readonly isUnsettled: boolean } {
  const say = pageWords().stage.shape, name = settings.pose === 'worn' && !hasMeasures(file) ? say.onAverageFoot : say.poses[settings.pose];
  switch (shape.kind) {
    case 'none': return { text: '', isUnsettled: false };
    case 'relaxing': return { text: say.relaxing(name), isUnsettled: false };
    case 'kept': return { text: say.kept, isUnsettled: true };
    case 'settled': {
      const status = posed?.pose.status ?? 'converged', out = balanceWords(posed?.pose.residual ?? 0);
      return { text: say.status[status](name, out), isUnsettled: status !== 'converged' };
    }
    default: return shape satisfies never;
  }
}

/** `forces are still 0.4 % out of balance`. */
function balanceWords(residual: number): string {
  const percent = 100 * residual, { balance, farOut } = pageWords().stage.shape;
  return Number.isFinite(percent) ? balance(inFigures(String(percent >= 10 ? Math.round(percent) : Number(percent.toPrecision(1))))) : farOut;
}
