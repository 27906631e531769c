import type { SockFile } from '../plan/sock-file.ts';
import { pageWords } from '../words/page-words.ts';
import { button, el, setAttributes } from './dom.ts';
import type { PageState } from './page-state.ts';
import { parseNumber } from './number-row.ts';
import type { Example } from './top-bar.ts';

/** A sock made from the present one, and what its button says. */
export interface Variant { readonly label: string; readonly file: SockFile }

export interface VariantHooks {
  readonly examples: readonly Example[];
  readonly variantsOf: (state: PageState) => readonly Variant[];
  /** The present sock turned down to so many stitches; null where that is no width of it. */
  readonly turnedDownTo: (state: PageState, width: number) => SockFile | null;
  readonly widestTurnDown: (state: PageState) => number | null;
  readonly compareWith: (file: SockFile) => void;
  readonly compareWithExample: (path: string) => void;
  readonly compareWithFile: (file: File) => void;
}

export interface VariantList { readonly element: HTMLElement; render(state: PageState): void }

/** Second socks at one press. */
export function createVariantList(hooks: VariantHooks): VariantList {
  const list = el('div', { class: 'variant-buttons' }), width = createWidthRow(hooks);
  const element = el('div', { class: 'variants', role: 'group', 'aria-label': pageWords().compare.seconds }, list, width.element,
    el('div', { class: 'compare-buttons' }, exampleChooser(hooks), fileButton(hooks)));
  let drawn: unknown = null, words = '', variants: readonly Variant[] = [];
  return {
    element,
    render: (state) => {
      // Each is planned to see whether it can be knitted: not on the way of a slider.
      if (state.planned === drawn || state.tab !== 'compare') return;
      drawn = state.planned;
      variants = hooks.variantsOf(state);
      width.render(state);
      // Rebuilt where the words differ only, so that the focus stays on a button whose sock is another one now.
      const labels = variants.map(({ label }) => label);
      if (words === labels.join('\n')) return;
      words = labels.join('\n');
      list.replaceChildren(...labels.map((label, place) => button(label, { class: 'variant-button' }, () => {
        const variant = variants[place];
        if (variant !== undefined) hooks.compareWith(variant.file);
      })));
    },
  };
}

/** A turn-down width of one's own. */
function createWidthRow(hooks: VariantHooks): VariantList {
  const say = pageWords().compare, input = el('input', { type: 'text', inputmode: 'numeric', class: 'small-number', role: 'spinbutton', 'aria-label': say.widthLabel, autocomplete: 'off' });
  const problem = el('p', { class: 'field-problem', id: 'variant-width-problem', hidden: true });
  let shown: PageState | null = null;
  const take = (): void => {
    if (shown === null) return;
    const width = parseNumber(input.value), file = width === null ? null : hooks.turnedDownTo(shown, width);
    problem.hidden = file !== null;
    setAttributes(input, { 'aria-invalid': file === null ? 'true' : null, 'aria-describedby': file === null ? problem.id : null });
    if (file !== null) { hooks.compareWith(file); return; }
    problem.textContent = say.widthProblem(hooks.widestTurnDown(shown) ?? 2);
  };
  input.addEventListener('keydown', (event) => { if (event.key === 'Enter') take(); });
  const element = el('div', { class: 'variant-width' }, el('span', { 'aria-hidden': 'true' }, say.turnedDownTo), input,
    button(say.compare, { class: 'notice-button', 'aria-label': say.compareWidth }, take), problem);
  return {
    element,
    render: (state) => {
      shown = state;
      const widest = hooks.widestTurnDown(state);
      element.hidden = widest === null;
      setAttributes(input, { 'aria-valuemin': 2, 'aria-valuemax': widest, 'aria-valuenow': parseNumber(input.value) });
      if (input.value === '' && state.planned !== null) input.value = String(Math.min(widest ?? 2, state.planned.plan.turnDownWidth + 4));
    },
  };
}

function exampleChooser({ examples, compareWithExample }: VariantHooks): HTMLElement {
  const select = el('select', { class: 'notice-button', 'aria-label': pageWords().compare.exampleLabel }, el('option', { value: '' }, pageWords().compare.example),
    ...examples.map(({ file, name }) => el('option', { value: file }, name)));
  select.addEventListener('change', () => {
    if (select.value !== '') compareWithExample(select.value);
    select.value = '';
  });
  return select;
}

/** The browser's own file input is made when it is wanted: the page has one of them at most. */
function fileButton({ compareWithFile }: VariantHooks): HTMLElement {
  return button(pageWords().compare.file, { class: 'notice-button' }, () => {
    const input = el('input', { type: 'file', accept: '.json,application/json' });
    input.addEventListener('change', () => {
      const file = input.files?.[0];
      if (file !== undefined) compareWithFile(file);
    });
    input.click();
  });
}
