import type { TubeDetail } from '../sheet/yarn-tubes.ts';
import { pageWords } from '../words/page-words.ts';
import { button, el, setText } from './dom.ts';
import { chooser, createMaking, row, type Row, type Saved, sizeWords } from './export-rows.ts';
import type { PageState } from './page-state.ts';

/** What a file of all yarn comes to, told before it is made. */
export interface YarnSize {
  readonly loops: number;
  readonly bytes: number;
  /** Of a large one, and of one that is too large to be made: the finest detail that comes to less, null where none does. */
  readonly verdict: 'usual' | 'large' | 'too-large';
  readonly instead: TubeDetail | null;
}

export interface YarnHooks {
  /** Null where there is nothing to be made yet. */
  readonly size: (state: PageState, detail: TubeDetail) => YarnSize | null;
  readonly save: (detail: TubeDetail, onProgress: (share: number) => void) => Promise<Saved | null>;
  readonly stop: () => void;
}

const DETAILS: readonly TubeDetail[] = ['coarse', 'middle', 'fine'];

/** The yarn loop by loop, as tubes for other programs. */
export function yarnRow(hooks: YarnHooks, tell: (saved: Saved) => void, state: () => PageState | null): Row {
  const { yarn: words } = pageWords().files.exports, about = el('p', {}), warning = el('p', { class: 'export-warning', role: 'status' });
  const detail = chooser(words.detail, DETAILS, 'middle', (choice) => words.details[choice]), making = createMaking(words.title, hooks.stop);
  const save = button(words.save, { class: 'notice-button', 'aria-label': `${words.title}: ${words.save}` }, () => {
    making.run(save, () => hooks.save(detail.value(), (share) => { making.tell(share, words.far(Math.round(100 * share))); }), tell);
  });
  let isPosed = false;
  const describe = (): void => {
    const shown = state(), size = shown === null || !isPosed ? null : hooks.size(shown, detail.value());
    setText(about, words.about(size === null ? '' : words.size(size.loops, sizeWords(size.bytes))));
    setText(warning, size === null || size.verdict === 'usual' ? '' : words[size.verdict === 'large' ? 'large' : 'tooLarge'](size.instead === null ? null : words.details[size.instead]));
    if (making.element.hidden) save.disabled = size === null || size.verdict === 'too-large';
  };
  detail.select.addEventListener('change', describe);
  return {
    element: el('div', {}, row(words.title, el('div', {}, about, warning), detail.element, save), making.element),
    render: (_state, _isReady, isShapeThere) => {
      isPosed = isShapeThere;
      describe();
    },
  };
}
