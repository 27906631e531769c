import { pageWords } from '../words/page-words.ts';
import { createDialog } from './dialog.ts';
import { button, el, setText } from './dom.ts';
import { printRow, type PrintHooks } from './export-print-row.ts';
import { chooser, row, type Row, type Saved, type Saver, sizeWords } from './export-rows.ts';
import { yarnRow, type YarnHooks } from './export-yarn-row.ts';
import type { PageState } from './page-state.ts';

export interface FilmChoice {
  /** Every so many passes a picture. */
  readonly step: number;
  readonly framesPerSecond: number;
}

export interface ExportHooks {
  readonly savePicture: (scale: number, hasGround: boolean) => Promise<Saved>;
  readonly saveFilm: (choice: FilmChoice, canvas: HTMLCanvasElement, onFrame: (frames: number, of: number, bytes: number) => void) => Promise<Saved | null>;
  readonly stopFilm: () => void;
  readonly saveOutline: () => Promise<Saved>;
  readonly saveModel: (kind: 'glb' | 'stl') => Promise<Saved>;
  readonly saveWork: (kind: 'csv' | 'json') => Promise<Saved>;
  readonly saveSock: () => Promise<Saved>;
  readonly yarn: YarnHooks;
  readonly print: PrintHooks;
  /** What a file will have, in bytes; null where that cannot be said. */
  readonly sizes: (state: PageState) => { readonly glb: number | null; readonly stl: number | null };
  /** CSS pixels of the picture. */
  readonly pictureSize: () => readonly [number, number];
  readonly hasPicture: boolean;
}

export interface ExportDialog {
  render(state: PageState): void;
  open(): void;
}

const SCALES = [1, 2, 3, 4] as const;
const STEPS = [1, 2, 4, 8] as const, SPEEDS = [5, 10, 20] as const;
/** Bytes of a frame; measured on the first example sock, every eighth pass: 35 frames in 275 kB. */
const FRAME_BYTES = 8000;

/** Everything that a sock can be taken away as, in one sheet. */
export function createExportDialog(hooks: ExportHooks): ExportDialog {
  const words = pageWords().files.exports, dialog = createDialog('export-dialog', words.title, () => {
    for (const stop of [hooks.stopFilm, hooks.yarn.stop, hooks.print.stop]) stop();
  });
  const said = el('p', { class: 'socks-said', role: 'status' });
  const tell = (saved: Saved): void => { setText(said, saved.problem ?? words.saved(saved.name ?? '', sizeWords(saved.bytes))); };
  const saver = (label: string, name: string, save: () => Promise<Saved>): HTMLButtonElement => {
    const element = button(label, { class: 'notice-button', 'aria-label': `${name}: ${label}` }, () => {
      element.disabled = true;
      setText(said, words.working);
      // The sheet says so before a picture keeps the page busy.
      setTimeout(() => {
        void save().then(tell, (error: unknown) => { setText(said, words.failed(String(error))); }).finally(() => {
          element.disabled = false;
          element.focus();
        });
      });
    });
    return element;
  };
  let now: PageState | null = null;
  const state = (): PageState | null => now, [outline, model, ...others] = fileRows(hooks, saver);
  const parts = [pictureRow(hooks, saver), printRow(hooks.print, tell), filmRow(hooks, tell, state), outline, model, yarnRow(hooks.yarn, tell, state), ...others];
  dialog.body.append(...parts.map(({ element }) => element));
  dialog.foot.append(el('p', { class: 'export-which', dir: 'auto' }), said);
  const render = (state: PageState): void => {
    now = state;
    if (!dialog.element.open) return;
    const isReady = state.problems.length === 0 && state.knitted !== null, isPosed = isReady && state.posed !== null && state.shape.kind === 'settled';
    setText(dialog.foot.firstElementChild as HTMLElement, isReady ? words.of(state.planned?.plan.name ?? '') : words.notYet);
    for (const part of parts) part.render(state, isReady, isPosed);
  };
  return {
    render,
    open: () => {
      setText(said, '');
      dialog.open();
      if (now !== null) render(now);
    },
  };
}

function pictureRow(hooks: ExportHooks, saver: Saver): Row {
  const { picture: words } = pageWords().files.exports, about = el('p', {});
  const scale = chooser(words.size, SCALES, 2, words.times), ground = el('input', { type: 'checkbox', checked: true });
  const save = saver(words.save, words.title, () => hooks.savePicture(scale.value(), ground.checked));
  const describe = (): void => {
    const [width, height] = hooks.pictureSize();
    setText(about, hooks.hasPicture ? words.about(Math.round(width * scale.value()), Math.round(height * scale.value())) : words.none);
  };
  scale.select.addEventListener('change', describe);
  return {
    element: row(words.title, about, scale.element, el('label', { class: 'export-choice' }, ground, el('span', {}, words.ground)), save),
    render: (_state, _isReady, isPosed) => {
      describe();
      save.disabled = !isPosed || !hooks.hasPicture;
    },
  };
}

function filmRow(hooks: ExportHooks, tell: (saved: Saved) => void, state: () => PageState | null): Row {
  const { film: words } = pageWords().files.exports, about = el('p', {});
  const step = chooser(words.step, STEPS, 4, words.every), speed = chooser(words.speed, SPEEDS, 10, words.perSecond);
  const canvas = el('canvas', { class: 'export-film', 'aria-hidden': 'true' }), progress = el('progress', { class: 'stage-progress', max: 1, 'aria-label': words.title }), far = el('p', { class: 'export-far' });
  const making = el('div', { class: 'export-making', hidden: true }, canvas, el('div', {}, far, progress, button(words.stop, { class: 'notice-button' }, () => { hooks.stopFilm(); })));
  const framesOf = (state: PageState): number => Math.ceil(((state.knitted?.trace.passes.length ?? 1) - 1) / step.value()) + 1;
  const start = button(words.make, { class: 'notice-button', 'aria-label': `${words.title}: ${words.make}` }, () => {
    start.disabled = true;
    making.hidden = false;
    progress.value = 0;
    setText(far, words.first);
    const done = hooks.saveFilm({ step: step.value(), framesPerSecond: speed.value() }, canvas, (frames, of, bytes) => {
      progress.value = frames / of;
      setText(far, words.far(frames, of, sizeWords((bytes / frames) * of)));
    });
    void done.then((saved) => { if (saved !== null) tell(saved); }).finally(() => {
      making.hidden = true;
      start.disabled = false;
      start.focus();
    });
  });
  const describe = (): void => {
    const shown = state();
    if (shown === null) return;
    const frames = framesOf(shown);
    setText(about, words.about(frames, Math.round(frames / speed.value()), sizeWords(frames * FRAME_BYTES)));
  };
  for (const { select } of [step, speed]) select.addEventListener('change', describe);
  return {
    element: el('div', {}, row(words.title, about, step.element, speed.element, start), making),
    render: (_state, isReady) => {
      describe();
      if (making.hidden) start.disabled = !isReady || !hooks.hasPicture;
    },
  };
}

function fileRows(hooks: ExportHooks, saver: Saver): readonly [Row, Row, ...Row[]] {
  const { outline, model, work, sock } = pageWords().files.exports;
  const outlineSave = saver(outline.save, outline.title, hooks.saveOutline);
  const modelAbout = el('p', {}), glb = saver('GLB', model.title, () => hooks.saveModel('glb')), stl = saver('STL', model.title, () => hooks.saveModel('stl'));
  const works = (['csv', 'json'] as const).map((kind) => saver(kind.toUpperCase(), work.title, () => hooks.saveWork(kind)));
  const sockSave = saver('JSON', sock.title, hooks.saveSock);
  return [
    { element: row(outline.title, el('p', {}, outline.about), outlineSave), render: (_state, isReady) => { outlineSave.disabled = !isReady; } },
    {
      element: row(model.title, modelAbout, glb, stl),
      render: (state, _isReady, isPosed) => {
        const sizes = hooks.sizes(state), words = (bytes: number | null): string => (bytes === null ? '' : sizeWords(bytes));
        setText(modelAbout, model.about(words(sizes.glb), words(sizes.stl)));
        glb.disabled = stl.disabled = !isPosed;
      },
    },
    { element: row(work.title, el('p', {}, work.about), ...works), render: (_state, isReady) => { for (const each of works) each.disabled = !isReady; } },
    { element: row(sock.title, el('p', {}, sock.about), sockSave), render: (_state, isReady) => { sockSave.disabled = !isReady; } },
  ];
}
