import { GUI } from 'lil-gui';
import type { Problem } from '../base/problem.ts';
import { pageWords } from '../words/page-words.ts';
import { addNumber } from './number-row.ts';
import { addChoice, addColour, addSwitch, addText } from './other-rows.ts';
import type { ControlRow, FieldRange, Hand, RowInput } from './control-row.ts';
import type { ControlContext, ControlSpec, FolderSpec } from './control-spec.ts';
import { button, el } from './dom.ts';
import { writeField } from './field-path.ts';
import type { PageState, Settings } from './page-state.ts';
import { footFolder, gaugeFolder } from './size-controls.ts';
import { countsFolder, heelFolder, legFolder, machineFolder, toeFolder } from './sock-controls.ts';
import { createToeSchedule } from './toe-schedule.ts';
import type { EditFile } from './toe-schedule.ts';
import { createYarnFolder, withYarns } from './yarn-folder.ts';
import type { YarnFolder } from './yarn-folder.ts';
import type { SockFile } from '../plan/sock-file.ts';

/** The dotted path of a problem's field, `yarns[0].colour` and `yarns.0.colour` alike. */
export function plainPath(field: string): string {
  return field.replace(/\[(\d+)\]/g, '.$1');
}

export interface PanelHooks {
  /** A changed sock; changes of one gesture are one step of undo. */
  readonly propose: (file: SockFile, gesture: string) => void;
  readonly finish: () => void;
  readonly choose: (settings: Partial<Settings>) => void;
  readonly showHowToMeasure: () => void;
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

const PATCH_RANGE: FieldRange = { min: 20, max: 300, step: 1 };
/** The file's own limits for yarns, which no plan narrows. */
const YARN_RANGES: Readonly<Record<string, FieldRange>> = {
  metresPer100g: { min: 20, max: 2000, step: 10 },
  stripePasses: { min: 2, max: 400, step: 2 },
};

/** Builds the controls once; `render` brings them up to date with the page's state. */
export function createPanel(host: HTMLElement, hooks: PanelHooks): Panel {
  const gui = new GUI({ container: host, autoPlace: false, title: pageWords().controls.panel, touchStyles: 0 });
  gui.domElement.setAttribute('role', 'group');
  gui.domElement.setAttribute('aria-label', pageWords().controls.panel);
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
  const edit: EditFile = (change) => {
    if (context === null) return;
    hooks.propose(change(context), 'list');
    hooks.finish();
  };
  const { rows, folders, yarns } = buildFolders(gui, hand, edit, hooks);

  const allRows = (): readonly ControlRow[] => [...rows, ...yarns.rows()];
  // What has no control of its own may lie in a list that has one.
  const find = (field: string): ControlRow | null => {
    const path = plainPath(field);
    return allRows().find((row) => row.field === path) ?? allRows().find((row) => path.startsWith(`${row.field}.`)) ?? null;
  };
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

interface Folders {
  readonly rows: readonly ControlRow[];
  /** Which folder a row lies in. */
  readonly folders: ReadonlyMap<ControlRow, GUI>;
  readonly yarns: YarnFolder;
}

function buildFolders(gui: GUI, hand: Hand, edit: EditFile, hooks: PanelHooks): Folders {
  const words = pageWords().controls, name: ControlSpec = { kind: 'text', field: 'name', ...words.fields.name, planned: ({ defaults }) => defaults.name };
  const rows: ControlRow[] = [addRow(gui, name, hand)], folders = new Map<ControlRow, GUI>();
  const keep = (row: ControlRow, folder: GUI): void => {
    rows.push(row);
    folders.set(row, folder);
  };
  const addFolder = (spec: FolderSpec): GUI => {
    const folder = gui.addFolder(spec.title);
    for (const control of spec.controls) keep(addRow(folder, control, hand), folder);
    folder.open(spec.isOpen);
    return folder;
  };
  addFolder(footFolder()).$children.append(el('div', { class: 'panel-buttons' }, button(words.howToMeasure, { class: 'panel-button' }, hooks.showHowToMeasure)));
  for (const spec of [gaugeFolder(), legFolder(), heelFolder()]) addFolder(spec);
  const toe = addFolder(toeFolder());
  keep(createToeSchedule(toe, edit), toe);
  addFolder(countsFolder());
  const yarns = createYarnFolder(gui, (folder, spec) => addRow(folder, spec, hand), edit);
  addFolder(machineFolder());
  return { rows, folders, yarns };
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
  const isOf = (path: string): boolean => path === field || (path === 'foot.shoeSize' && field === 'foot.shoeSize.value');
  return problems.find((problem) => problem.field !== null && isOf(plainPath(problem.field))) ?? null;
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
