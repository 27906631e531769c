import { downloadText } from '../panel/hand-out.ts';
import type { MistakeHooks } from '../panel/stand-mistake.ts';
import type { ChangeShow } from '../panel/stand-change.ts';
import type { NotesHooks } from '../panel/stand-notes.ts';
import type { OptionsHooks } from '../panel/stand-options.ts';
import type { YarnHooks } from '../panel/stand-yarn.ts';
import { DEFAULTS } from '../plan/defaults.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { describeWork } from '../sheet/describe-work.ts';
import { nextState } from '../sheet/find-passes.ts';
import { statesAt } from '../sheet/hand-moves.ts';
import { noteAt, readPlace, withNote, writePlace } from '../sheet/knit-place.ts';
import { labelNeedle } from '../sheet/needle-label.ts';
import { readSeen } from '../sheet/read-seen.ts';
import { pageLanguage, pageWords } from '../words/page-words.ts';
import type { PageStore } from './page-store.ts';
import { fileName } from './save-file.ts';
import type { SockDesk } from './sock-desk.ts';
import { answerChange, answerMistake } from './stand-answers.ts';
import { pedalKey } from './stand-hands.ts';
import { isMirrored } from './stand-show.ts';
import type { StandWork } from './stand-show.ts';
import type { Tone, Voice } from './stand-sound.ts';
import type { StandTable } from './stand-table.ts';
import { createYarnHooks } from './stand-yarn.ts';

export interface SheetTools {
  readonly table: StandTable;
  readonly store: PageStore;
  readonly deskOf: () => SockDesk;
  readonly voice: Voice;
  readonly tone: Tone;
  /** The place has changed; with something to say of it. */
  readonly changed: (told: string) => void;
  readonly lit: () => void;
}

export interface SheetHooks {
  readonly notes: NotesHooks;
  readonly mistake: MistakeHooks;
  readonly change: () => ChangeShow;
  readonly yarn: YarnHooks;
  readonly options: OptionsHooks;
}

/** What the stand's sheets ask of the knitting under way, and do to it. */
export function createSheetHooks(tools: SheetTools): SheetHooks {
  return { notes: notesHooks(tools), mistake: mistakeHooks(tools), change: () => changeShow(tools), yarn: createYarnHooks(tools, () => workOf(tools).record.plan.yarns, () => workOf(tools).record.plan.legPasses, () => panelFileOf(tools)), options: optionsHooks(tools) };
}

const panelFileOf = ({ store }: SheetTools): SockFile | null => (store.state().problems.length > 0 ? null : store.state().file);

function workOf({ table }: SheetTools): StandWork {
  const work = table.work();
  if (work === null) throw new Error('stand: the sock under way cannot be knitted');
  return work;
}

function notesHooks(tools: SheetTools): NotesHooks {
  const { table, changed, store } = tools, words = pageWords(), told = words.stand.notes;
  const titleAt = (stop: number): string => {
    const { record, items } = workOf(tools), item = items[stop];
    return item === undefined ? words.stand.face.sockDone : describeWork(record, item, { words, numbers: store.state().settings.needleNumbers }).title;
  };
  const when = (iso: string): string => {
    const date = new Date(iso);
    return Number.isNaN(date.getTime()) ? iso : date.toLocaleString(pageLanguage(), { dateStyle: 'medium', timeStyle: 'short' });
  };
  return {
    show: () => {
      const { stop, notes, startedAt, lastAt } = table.place(), passes = workOf(tools).record.trace.passes.length - 1;
      return {
        title: titleAt(stop), text: noteAt(table.place(), stop), notes: notes.map((note) => ({ ...note, title: titleAt(note.stop) })),
        log: startedAt === null || lastAt === null ? told.notStarted : told.log(when(startedAt), when(lastAt), Math.min(Math.max(0, stop - 1), passes)),
      };
    },
    keep: (text) => {
      table.change(withNote(table.place(), table.place().stop, text));
      changed('');
    },
    remove: (stop) => {
      table.change(withNote(table.place(), stop, ''));
      changed('');
    },
  };
}

function mistakeHooks(tools: SheetTools): MistakeHooks {
  const { table, changed, store } = tools, words = pageWords(), numbers = () => store.state().settings.needleNumbers;
  const present: MistakeHooks['present'] = () => {
    const { record: { trace } } = workOf(tools), pass = Math.min(Math.max(0, table.place().stop - 1), trace.passes.length - 1), { needlesPerBed } = trace;
    return { states: statesAt(trace, pass), needlesPerBed, pass, label: (needle) => labelNeedle(needle, needlesPerBed, numbers()) };
  };
  return {
    present, nextState,
    find: (entry) => answerMistake(entry, table.place(), workOf(tools), numbers(), (stop) => {
      table.change({ ...table.place(), stop });
      changed(words.stand.mistake.isSet(Math.max(0, stop - 1)));
    }),
    read: (text) => {
      const { states, needlesPerBed } = present(), read = readSeen(text, { needlesPerBed, numbers: numbers(), present: states, words });
      return read.states === null ? { problems: read.problems.map(({ message }) => message) } : { states: read.states };
    },
  };
}

function changeShow(tools: SheetTools): ChangeShow {
  const { table, changed, store } = tools;
  return answerChange(table.place(), panelFileOf(tools), store.state().settings.lengthUnit, (place) => {
    table.change(place);
    changed(pageWords().stand.change.taken);
  });
}

function optionsHooks(tools: SheetTools): OptionsHooks {
  const { table, changed, store, voice, tone, lit } = tools, nameOf = (file: SockFile): string => file.name ?? DEFAULTS.name;
  return {
    pedalKey,
    show: () => {
      const { voice: isVoice, tone: isTone, light, forwardKey, backKey } = table.settings(), { id, second, file } = table.place();
      return {
        voice: isVoice, tone: isTone, hasVoice: voice.isThere, hasTone: tone.isThere, light, forwardKey, backKey, second, isSlanted: (file.toe?.slantStitches ?? 0) > 0,
        socks: table.places().map((place) => ({ id: place.id, name: nameOf(place.file), sock: place.sock, stop: place.stop, isHere: place.id === id })), panelName: nameOf(store.state().file),
      };
    },
    change: (change) => {
      table.choose(change);
      lit();
      if (change.voice === false) voice.quiet();
      if (change.voice === true) changed('');
      if (change.tone === true) tone.sound(true);
    },
    setSecond: (second) => {
      const place = table.place();
      // A second sock under way cannot be turned over.
      if (isMirrored({ ...place, second }) !== isMirrored(place) && place.stop > 0) return pageWords().stand.options.secondBegun;
      table.change({ ...place, second });
      changed('');
      return null;
    },
    goOn: (id) => {
      const place = table.places().find((other) => other.id === id);
      if (place !== undefined) table.take(place);
      changed('');
    },
    forget: table.forget,
    start: () => {
      const file = panelFileOf(tools);
      if (file !== null) table.start(file);
      changed('');
    },
    save: () => { downloadText(`${fileName(table.name())}-place.json`, 'application/json', writePlace(table.place())); },
    openPlace: (text) => {
      const { place, problems } = readPlace(text, pageWords());
      if (place === null) return problems.map(({ field, message }) => (field === null ? message : `${field}: ${message}`)).join(' ');
      table.take(place);
      changed(pageWords().stand.kept.opened);
      return null;
    },
  };
}
