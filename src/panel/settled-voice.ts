import type { SockFile } from '../plan/sock-file.ts';
import { pageWords } from '../words/page-words.ts';
import { el, setAttributes, setText } from './dom.ts';
import type { PageState, PlannedSock } from './page-state.ts';
import { formatLength } from './units.ts';
import type { LengthUnit } from './units.ts';

export interface SettledVoice { render(state: PageState): void }

export interface VoiceHooks {
  /** Name and value of a field's control, in words; null where it has none. */
  readonly tellField: (field: string) => string | null;
}

/**
 * For those who hear the page: once a change has come to rest, what was changed and what came of it, never
 * each tick of a slider; and the picture's words, which tell its pose and the sock's main measures.
 */
export function createSettledVoice(picture: HTMLElement, { tellField }: VoiceHooks): SettledVoice {
  const voice = el('p', { class: 'visually-hidden settled-voice', role: 'status' });
  document.body.querySelector('main')?.append(voice);
  let told: SockFile | null = null, heard: PageState['posed'] = null, unit: LengthUnit | null = null;
  return {
    render: ({ file, planned, posed, shape, settings: { lengthUnit, pose } }) => {
      // A changed file is drawn once with the shape that was there before it.
      if (planned === null || shape.kind !== 'settled' || (posed === heard && unit === lengthUnit)) return;
      heard = posed;
      unit = lengthUnit;
      const words = pageWords(), sock = sockWords(planned, lengthUnit);
      setAttributes(picture, { 'aria-label': words.page.told.canvas(words.stage.shape.poses[pose], sock) });
      if (told === file) return;
      const [field, ...others] = told === null ? [] : changedFields(told, file);
      const change = field === undefined || others.length > 0 ? null : tellField(field);
      if (field !== undefined) setText(voice, change === null ? words.page.told.undone(sock) : words.page.told.change(change, sock));
      told = file;
    },
  };
}

function sockWords({ plan, rest }: PlannedSock, unit: LengthUnit): string {
  const length = (mm: number | null): string => (mm === null ? '–' : formatLength(mm, unit));
  const passes = plan.legPasses + plan.plainPasses + plan.anklePasses + plan.heelPasses + plan.footPasses + plan.toePasses;
  return pageWords().page.told.sock(length(rest.heelDepthMm), length(rest.footLengthMm), passes);
}

/** Dotted paths of the values that differ between two files. */
export function changedFields(before: unknown, after: unknown, path = ''): readonly string[] {
  if (before === after) return [];
  if (!isGroup(before) || !isGroup(after)) {
    // A group that is new, or gone, is told of by its parts.
    const group = isGroup(before) ? before : isGroup(after) ? after : null;
    return group === null ? [path] : Object.keys(group).map((key) => join(path, key));
  }
  return [...new Set([...Object.keys(before), ...Object.keys(after)])].flatMap((key) => changedFields(before[key], after[key], join(path, key)));
}

function isGroup(value: unknown): value is Readonly<Record<string, unknown>> { return typeof value === 'object' && value !== null; }

function join(path: string, key: string): string { return path === '' ? key : `${path}.${key}`; }
