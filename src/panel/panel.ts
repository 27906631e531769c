import { GUI } from 'lil-gui';
import type { Problem } from '../base/problem.ts';
import { addNumber } from './number-row.ts';
import { addChoice, addColour, addSwitch, addText } from './other-rows.ts';
import type { ControlRow, FieldRange, Hand, RowInput } from './control-row.ts';
import type { ControlContext, ControlSpec, FolderSpec } from './control-spec.ts';
import { button, el } from './dom.ts';
import { writeField } from './field-path.ts';
import type { PageState, Settings } from './page-state.ts';
import { footFolder, gaugeFolder } from './size-controls.ts';
import { countsFolder, heelFolder, legFolder, machineFolder, toeFolder } from './sock-controls.ts';
import { yarnControls } from './yarn-controls.ts';
import type { SockFile, YarnChoice } from '../plan/sock-file.ts';

/** The dotted path of a problem's field, `yarns[0].colour` and `yarns.0.colour` alike. */
export function plainPath(field: string): string {
  return field.replace(/\[(\d+)\]/g, '.$1');
}

export interface PanelHooks {
  /** A changed sock; changes of one gesture are one step of undo. */
  readonly propose: (file: SockFile, gesture: string) => void;
  readonly finish: () => void;
  readonly choose: (settings: Partial<Settings>) => void;
  readonly rangesOf: (file: SockFile) => Readonly<Record<string, FieldRange>>;
  readonly defaults: ControlContext['defaults'];
  readonly shoeSizeOf: ControlContext['shoeSizeOf'];
}

export interface Panel {
  render(state: PageState): void;
  /** Puts the focus on the control of a field; false if there is none. */
  focusField(field: string): boolean;
  /** Fields that have a control, so that other problems can be shown elsewhere. */
  hasField(field: string): boolean;
}

const NAME: ControlSpec = { kind: 'text', field: 'name', label: 'Name', planned: ({ defaults }) => defaults.name };
const PATCH_RANGE: FieldRange = { min: 20, max: 300, step: 1 };
/** The file's own limits for yarns, which no plan narrows. */
const YARN_RANGES: Readonly<Record<string, FieldRange>> = {
  metresPer100g: { min: 20, max: 2000, step: 10 },
  stripePasses: { min: 2, max: 400, step: 2 },
};
const YARNS_AT_MOST = 8;

/** Builds the controls once; `render` brings them up to date with the page's state. */
export function createPanel(host: HTMLElement, hooks: PanelHooks): Panel {
  const gui = new GUI({ container: host, autoPlace: false, title: 'Your sock', touchStyles: 0 });
  gui.domElement.setAttribute('role', 'group');
  gui.domElement.setAttribute('aria-label', 'Your sock');
  gui.$title.hidden = true;
  let context: ControlContext | null = null;
  let shown: PageState | null = null;

  const hand: Hand = {
    propose: (spec, value) => {
      if (context === null) return;
      if (spec.choose !== undefined) { hooks.choose(spec.choose(value)); return; }
      const ready = { ...context, file: spec.field.startsWith('yarns.') ? withYarns(context) : context.file };
      hooks.propose(spec.write?.(ready, value) ?? writeField(ready.file, spec.field, value), spec.field);
    },
    finish: hooks.finish,
  };
  const rows: ControlRow[] = [addRow(gui, NAME, hand)];
  const folders = new Map<ControlRow, GUI>();
  const addFolder = (spec: FolderSpec): GUI => {
    const folder = gui.addFolder(spec.title);
    for (const control of spec.controls) {
      const row = addRow(folder, control, hand);
      rows.push(row);
      folders.set(row, folder);
    }
    folder.open(spec.isOpen);
    return folder;
  };
  for (const spec of [footFolder, gaugeFolder, legFolder, heelFolder, toeFolder, countsFolder]) addFolder(spec);
  const yarns = createYarnFolder(gui, hand, (change) => {
    if (context !== null) { hooks.propose(change(withYarns(context)), 'yarns'); hooks.finish(); }
  });
  addFolder(machineFolder);

  const allRows = (): readonly ControlRow[] => [...rows, ...yarns.rows()];
  const find = (field: string): ControlRow | null => allRows().find((row) => row.field === plainPath(field)) ?? null;
  return {
    render: (state) => {
      // Of all that changes while a shape relaxes, nothing concerns the controls.
      if (shown !== null && state.file === shown.file && state.problems === shown.problems && state.remarks === shown.remarks && state.settings === shown.settings && state.planned === shown.planned) return;
      shown = state;
      context = contextOf(state, hooks);
      yarns.fit(state.file.yarns?.length ?? state.planned?.plan.yarns.length ?? 1);
      const input = rowInput(context, state, hooks);
      for (const row of allRows()) row.render(input);
    },
    focusField: (field) => {
      const row = find(field);
      if (row === null) return false;
      (folders.get(row) ?? yarns.folder).open(true);
      row.focus();
      return true;
    },
    hasField: (field) => find(field) !== null,
  };
}

function contextOf(state: PageState, hooks: PanelHooks): ControlContext {
  return {
    file: state.file, plan: state.planned?.plan ?? null, foot: state.planned?.foot ?? null,
    settings: state.settings, defaults: hooks.defaults, shoeSizeOf: hooks.shoeSizeOf,
  };
}

function rowInput(context: ControlContext, state: PageState, hooks: PanelHooks): RowInput {
  const ranges = hooks.rangesOf(state.file);
  return {
    context,
    rangeOf: (field) => (field.startsWith('page.patch') ? PATCH_RANGE : ranges[field] ?? YARN_RANGES[field.replace(/^yarns\.\d+\./, '')] ?? null),
    problemOf: (field) => findOfField(state.problems, field),
    remarkOf: (field) => findOfField(state.remarks, field),
  };
}

function findOfField(problems: readonly Problem[], field: string): Problem | null {
  return problems.find((problem) => problem.field !== null && plainPath(problem.field) === field) ?? null;
}

function addRow(folder: GUI, spec: ControlSpec, hand: Hand): ControlRow {
  switch (spec.kind) {
    case 'number': return addNumber(folder, spec, hand);
    case 'choice': return addChoice(folder, spec, hand);
    case 'switch': return addSwitch(folder, spec, hand);
    case 'text': return addText(folder, spec, hand);
    case 'colour': return addColour(folder, spec, hand);
    default: return spec satisfies never;
  }
}

/** The file with its yarns written out, so that one of them can be changed. */
function withYarns({ file, plan, defaults }: ControlContext): SockFile {
  if (file.yarns !== undefined && file.yarns.length > 0) return file;
  const yarns: readonly YarnChoice[] = (plan?.yarns ?? [defaults.yarn]).map(({ name, metresPer100g, colour, from }) => ({ name, metresPer100g, colour, from }));
  return writeField(file, 'yarns', yarns);
}

interface YarnFolder {
  readonly folder: GUI;
  fit(count: number): void;
  rows(): readonly ControlRow[];
}

/** One sub-folder a yarn, rebuilt only when their number changes. */
function createYarnFolder(gui: GUI, hand: Hand, change: (edit: (file: SockFile) => SockFile) => void): YarnFolder {
  const folder = gui.addFolder('Yarns and stripes');
  folder.open(false);
  let rows: ControlRow[] = [];
  let built: GUI[] = [];
  const add = button('Add a yarn', { class: 'panel-button' }, () => {
    change((file) => writeField(file, 'yarns', [...(file.yarns ?? []), { name: `Yarn ${(file.yarns?.length ?? 0) + 1}`, colour: '#c9a15a', from: 'toe' }]));
  });
  const foot = el('div', { class: 'panel-buttons' }, add);
  const buildYarn = (index: number, isOnly: boolean): void => {
    const part = folder.addFolder(`Yarn ${index + 1}`);
    built.push(part);
    rows.push(...yarnControls(index).map((spec) => addRow(part, spec, hand)));
    if (isOnly) return;
    part.$children.append(el('div', { class: 'panel-buttons' }, button(`Take out yarn ${index + 1}`, { class: 'panel-button' }, () => {
      change((file) => writeField(file, 'yarns', (file.yarns ?? []).filter((_yarn, place) => place !== index)));
    })));
  };
  return {
    folder,
    rows: () => rows,
    fit: (count) => {
      add.disabled = count >= YARNS_AT_MOST;
      if (count === built.length) return;
      for (const part of built) part.destroy();
      built = [];
      rows = [];
      for (let index = 0; index < count; index += 1) buildYarn(index, count === 1);
      folder.$children.append(foot);
    },
  };
}
