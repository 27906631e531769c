import type { GUI } from 'lil-gui';
import type { SockFile, YarnChoice } from '../plan/sock-file.ts';
import { pageWords } from '../words/page-words.ts';
import type { ControlRow } from './control-row.ts';
import type { ControlContext, ControlSpec } from './control-spec.ts';
import { button, el } from './dom.ts';
import { writeField } from './field-path.ts';
import type { EditFile } from './toe-schedule.ts';
import { yarnControls } from './yarn-controls.ts';

const YARNS_AT_MOST = 8;

/** The file with its yarns written out, so that one of them can be changed. */
export function withYarns({ file, plan, defaults }: ControlContext): SockFile {
  if (file.yarns !== undefined && file.yarns.length > 0) return file;
  const yarns: readonly YarnChoice[] = (plan?.yarns ?? [defaults.yarn]).map(({ name, metresPer100g, colour, from }) => ({ name, metresPer100g, colour, from }));
  return writeField(file, 'yarns', yarns);
}

export interface YarnFolder {
  readonly folder: GUI;
  fit(count: number): void;
  rows(): readonly ControlRow[];
}

/** One sub-folder a yarn, rebuilt only when their number changes. */
export function createYarnFolder(gui: GUI, add: (folder: GUI, spec: ControlSpec) => ControlRow, edit: EditFile): YarnFolder {
  const words = pageWords().controls, folder = gui.addFolder(words.folders.yarns);
  folder.open(false);
  let rows: ControlRow[] = [];
  let built: GUI[] = [];
  const change = (make: (file: SockFile) => SockFile): void => { edit((context) => make(withYarns(context))); };
  const more = button(words.addYarn, { class: 'panel-button' }, () => {
    change((file) => writeField(file, 'yarns', [...(file.yarns ?? []), { name: words.yarn((file.yarns?.length ?? 0) + 1), colour: '#c9a15a', from: 'toe' }]));
  });
  const foot = el('div', { class: 'panel-buttons' }, more);
  const buildYarn = (index: number, isOnly: boolean): void => {
    const part = folder.addFolder(words.yarn(index + 1));
    built.push(part);
    rows.push(...yarnControls(index).map((spec) => add(part, spec)));
    if (isOnly) return;
    part.$children.append(el('div', { class: 'panel-buttons' }, button(words.takeOutYarn(index + 1), { class: 'panel-button' }, () => {
      change((file) => writeField(file, 'yarns', (file.yarns ?? []).filter((_yarn, place) => place !== index)));
    })));
  };
  return {
    folder,
    rows: () => rows,
    fit: (count) => {
      more.disabled = count >= YARNS_AT_MOST;
      if (count === built.length) return;
      for (const part of built) part.destroy();
      built = [];
      rows = [];
      for (let index = 0; index < count; index += 1) buildYarn(index, count === 1);
      folder.$children.append(foot);
    },
  };
}
