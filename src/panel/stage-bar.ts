import type { PoseName, PoseStatus } from '../shape/pose.ts';
import type { ViewPreset } from '../view/sock-view-types.ts';
import { button, el, setAttributes, setText } from './dom.ts';
import { hasMeasures } from './fit-words.ts';
import { svg } from './svg.ts';
import type { PageState } from './page-state.ts';

export interface StageBar { render(state: PageState): void }

export interface StageHooks {
  readonly choosePose: (pose: PoseName) => void;
  readonly showPreset: (preset: ViewPreset) => void;
  readonly reset: () => void;
  readonly zoomBy: (factor: number) => void;
  /** The picture alone over the whole page, or everything again. */
  readonly showLarge: (isLarge: boolean) => void;
}

const POSES: readonly (readonly [PoseName, string])[] = [['flat', 'Laid flat'], ['tube', 'Tube'], ['beds', 'On the beds'], ['worn', 'Worn']];
const PRESETS: readonly (readonly [ViewPreset, string])[] = [
  ['side', 'Side'], ['three-quarter', 'Turned'], ['front', 'Front'], ['back', 'Back'], ['sole', 'Sole'],
];
/** From under the machine there is no sole to see. */
const SOLE_ON_BEDS = 'Below';
/** Views from which a sock that lies flat is seen edge on. */
const EDGE_ON: readonly ViewPreset[] = ['front', 'back', 'sole'];
export const ZOOM_STEP = 1.25;

/** Pose switch, views and zoom over the picture, and how its shape stands under it. */
export function createStageBar(top: HTMLElement, bottom: HTMLElement, hooks: StageHooks): StageBar {
  const inputs = POSES.map(([pose, name]) => {
    const input = el('input', { type: 'radio', name: 'pose', value: pose });
    input.addEventListener('change', () => { if (input.checked) hooks.choosePose(pose); });
    return { pose, input, label: el('label', {}, input, name) };
  });
  const poseSwitch = el('fieldset', { class: 'segments' }, el('legend', { class: 'visually-hidden' }, 'Pose of the sock'),
    ...inputs.map(({ label }) => label));
  let preset: ViewPreset = 'side';
  let drawn: PageState | null = null;
  const show = (next: ViewPreset): void => {
    preset = next;
    hooks.showPreset(next);
    if (drawn !== null) showWords(drawn);
  };
  const presets = PRESETS.map(([preset, name]) => ({ preset, name, element: button(name, { class: 'view-button', 'data-view': preset }, () => { show(preset); }) }));
  const views = el('div', { class: 'view-buttons', role: 'group', 'aria-label': 'View of the sock' },
    ...presets.map(({ element }) => element),
    button('−', { class: 'view-button is-sign', 'aria-label': 'Zoom out' }, () => { hooks.zoomBy(1 / ZOOM_STEP); }),
    button('+', { class: 'view-button is-sign', 'aria-label': 'Zoom in' }, () => { hooks.zoomBy(ZOOM_STEP); }),
    button('Reset', { class: 'view-button', 'data-view': 'reset' }, hooks.reset), largeButton(hooks));
  top.append(poseSwitch, views);

  const bar = el('progress', { class: 'stage-progress', max: 1, 'aria-label': 'Relaxing' });
  const mark = el('span', { class: 'stage-mark', 'aria-hidden': 'true' }, '!'), sentence = el('span', { class: 'stage-sentence' });
  const words = el('p', { class: 'stage-words', role: 'status' }, mark, sentence);
  bottom.append(words, bar);
  const showWords = (state: PageState): void => {
    const { text, isUnsettled } = shapeWords(state);
    const isEdgeOn = state.shape.kind === 'settled' && state.settings.pose === 'flat' && EDGE_ON.includes(preset);
    setText(sentence, isEdgeOn ? `${text}, seen edge on: as a tube it is round` : text);
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
      for (const { preset, name, element } of presets) setText(element, preset === 'sole' && state.settings.pose === 'beds' ? SOLE_ON_BEDS : name);
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
  let isLarge = false;
  const set = (next: boolean): void => {
    isLarge = next;
    setAttributes(element, { 'aria-pressed': String(isLarge), title: isLarge ? 'All of the page again' : 'The picture alone' });
    showLarge(isLarge);
  };
  const element = button('', { class: 'view-button is-sign', 'aria-label': 'Large picture', 'aria-pressed': 'false', title: 'The picture alone' }, () => { set(!isLarge); });
  element.append(svg('svg', { viewBox: '0 0 16 16', width: 14, height: 14, 'aria-hidden': 'true' },
    svg('path', { d: 'M9.5 2.5h4v4m0-4-5 5M6.5 13.5h-4v-4m0 4 5-5', fill: 'none', stroke: 'currentColor', 'stroke-width': 1.6 })));
  window.addEventListener('keydown', ({ key }) => {
    if (key === 'Escape' && isLarge && document.querySelector('dialog[open]') === null) set(false);
  });
  return element;
}

/** How the shape in the picture stands, and whether that asks for care. */
export function shapeWords({ shape, posed, settings, file }: Pick<PageState, 'shape' | 'posed' | 'settings' | 'file'>): { readonly text: string; readonly isUnsettled: boolean } {
  const name = settings.pose === 'worn' && !hasMeasures(file) ? ON_AVERAGE_FOOT : POSE_WORDS[settings.pose];
  switch (shape.kind) {
    case 'none': return { text: '', isUnsettled: false };
    case 'relaxing': return { text: `The cloth is relaxing, ${name}…`, isUnsettled: false };
    case 'kept': return { text: 'The last sock that can be knitted', isUnsettled: true };
    case 'settled': {
      const status = posed?.pose.status ?? 'converged', out = balanceWords(posed?.pose.residual ?? 0);
      return { text: STATUS_WORDS[status].replace('{pose}', name).replace('{out}', out), isUnsettled: status !== 'converged' };
    }
    default: return shape satisfies never;
  }
}

const POSE_WORDS: Readonly<Record<PoseName, string>> = { flat: 'laid flat', tube: 'as a tube', beds: 'on the beds', worn: 'on a foot of your measures' };
const ON_AVERAGE_FOOT = 'on an average foot';

/** `forces are still 0.4 % out of balance`. */
function balanceWords(residual: number): string {
  const percent = 100 * residual;
  return Number.isFinite(percent) ? `forces are still ${percent >= 10 ? Math.round(percent) : Number(percent.toPrecision(1))} % out of balance` : 'forces are far out of balance';
}

const STATUS_WORDS: Readonly<Record<PoseStatus, string>> = {
  converged: 'At rest, {pose}',
  stalled: 'Not quite at rest, {pose}: {out}; measures are approximate',
  budget: 'Not yet at rest, {pose}: {out}; measures are approximate',
  cancelled: 'Stopped before it came to rest, {pose}',
};
