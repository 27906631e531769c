import { makeProblem } from '../base/make-problem.ts';
import { nearestName } from '../base/nearest-name.ts';
import { checkSock } from '../plan/check-sock.ts';
import type { GroupRule, Rule } from '../plan/field-rule.ts';
import { describeAllowed } from '../plan/field-rule.ts';
import { CONTROL_PATHS } from '../plan/ranges.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { ruleAt, SOCK_SCHEMA } from '../plan/sock-schema.ts';
import { withField } from '../plan/with-field.ts';
import type { Words } from '../words/words.ts';
import { PART_NAMES, readPlace } from './lesson-places.ts';
import type { LessonProblem, LessonScene, PassPlace } from './lesson.ts';
import type { TextLine } from './lesson-markdown.ts';

/** A field of the sock that a lesson sets, with its line. */
export interface SockChange {
  readonly path: string;
  readonly value: unknown;
  readonly line: number;
  /** For a count that is refused though its size is lawful, being odd, say: the nearest smaller lawful one, and what is to be told if the sock can take that. */
  readonly refused?: { readonly near: number; readonly problem: LessonProblem };
}

export interface Settings {
  readonly changes: readonly SockChange[];
  readonly scene: LessonScene;
  /** Line of each setting of the scene. */
  readonly lines: Readonly<Record<string, number>>;
}

/** A value that was understood, or what would be right. */
type Read<T> = { readonly value: T } | { readonly allowed: string };

const oneOf = <T extends string>(...values: readonly T[]) => (text: string): Read<T> => {
  const value = values.find((known) => known === text.toLowerCase());
  return value === undefined ? { allowed: values.join(', ') } : { value };
};

const PLACE_FORM = `63, heel-in start, heel-out end - 2 (${PART_NAMES.join(', ')}; before, start, middle, end)`;

function placeOf(text: string): Read<PassPlace> {
  const read = readPlace(text);
  return 'place' in read ? { value: read.place } : { allowed: read.meant ?? PLACE_FORM };
}

function playOf(text: string): Read<{ readonly from: PassPlace; readonly to: PassPlace }> {
  const ends = text.split(/\s+to\s+|\s*(?:\.\.+|…)\s*/i);
  if (ends.length !== 2) return { allowed: 'heel-in before to heel-out end' };
  const [from, to] = ends.map(placeOf);
  if ('value' in from && 'value' in to) return { value: { from: from.value, to: to.value } };
  const meant = ends.map((end) => meantBy(end));
  return { allowed: meant.includes(null) ? PLACE_FORM : meant.join(' to ') };
}

/** A place as it was written, or as it was meant. */
function meantBy(text: string): string | null {
  const read = readPlace(text);
  return 'place' in read ? text.trim() : read.meant;
}

function slidersOf(text: string): Read<readonly string[]> {
  const names = text.toLowerCase() === 'none' ? [] : text.split(/[\s,]+/).filter((name) => name !== '');
  const known = names.map((name) => CONTROL_PATHS.find((path) => path.toLowerCase() === name.toLowerCase()));
  const unknown = names.find((_, i) => known[i] === undefined);
  if (unknown === undefined) return { value: known.flatMap((path) => (path === undefined ? [] : [path])) };
  return { allowed: nearestName(unknown, CONTROL_PATHS.map((name) => ({ name })))?.name ?? `none, ${CONTROL_PATHS.join(', ')}` };
}

function compareOf(text: string): Read<'no' | 'beside' | 'over'> {
  return text.toLowerCase() === 'yes' ? { value: 'beside' } : oneOf('no', 'beside', 'over')(text);
}

type SceneKey = keyof LessonScene;
const SCENE: { readonly [K in SceneKey]-?: (text: string) => Read<NonNullable<LessonScene[K]>> } = {
  pose: oneOf('flat', 'tube', 'beds', 'worn'),
  pass: placeOf,
  play: playOf,
  view: oneOf('side', 'back', 'front', 'sole', 'three-quarter'),
  near: oneOf('all', 'heel', 'toe'),
  colours: oneOf('yarn', 'stretch-width', 'stretch-length', 'pass', 'bed', 'pressure', 'gap', 'longer', 'wider'),
  foot: oneOf('inside', 'hidden', 'glass'),
  line: oneOf('mitre', 'short-base', 'heel-row', 'heel-diagonal'),
  compare: compareOf,
  sliders: slidersOf,
};
/** Settings of the picture, beside the fields of the sock. */
export const SCENE_KEYS = Object.keys(SCENE) as readonly SceneKey[];
const OTHER_SPELLINGS: Readonly<Record<string, SceneKey>> = { colors: 'colours', colour: 'colours', color: 'colours', slider: 'sliders' };

/** Fields of the sock that a lesson may set: single values only. */
const FIELDS = listFields(SOCK_SCHEMA, '');

function listFields(group: GroupRule, prefix: string): string[] {
  return Object.entries(group.fields).flatMap(([name, rule]) => (rule.kind === 'group' ? listFields(rule, `${prefix}${name}.`) : rule.kind === 'list' ? [] : [`${prefix}${name}`]));
}

/** A value of a sock's field from its text, or undefined where it is no such value. */
function fieldValue(rule: Rule, text: string): unknown {
  switch (rule.kind) {
    case 'number': return /^[-+]?(\d+([.,]\d+)?|[.,]\d+)$/.test(text) ? Number(text.replace(',', '.')) : undefined;
    case 'flag': return /^(true|yes|on)$/i.test(text) ? true : /^(false|no|off)$/i.test(text) ? false : undefined;
    case 'choice': return rule.choices.find((choice) => String(choice).toLowerCase() === text.toLowerCase());
    case 'text': case 'colour': return text;
    case 'list': case 'group': return undefined;
    default: return rule satisfies never;
  }
}

/** A sock that any single field can be tried in. */
const TRIAL: SockFile = { gauge: { stitchesPer10cm: 30, rowsPer10cm: 42 }, foot: { lengthMm: 250, ballGirthMm: 236 }, yarns: Array.from({ length: 24 }, () => ({})) };

function isLawful(path: string, value: unknown): boolean {
  return !checkSock(withField(TRIAL, path, value)).problems.some(({ field }) => field === path);
}

/** The lawful count next below a number within the rule's limits; null for any other value. */
function nearCount(rule: Rule, value: unknown): number | null {
  if (rule.kind !== 'number' || rule.multipleOf === 0 || typeof value !== 'number' || value < rule.min || value > rule.max) return null;
  return Math.max(rule.min, Math.floor(value / rule.multipleOf) * rule.multipleOf);
}

const LONGEST_SETTING = 300;
const SETTING = /^\s*(?:[-*]\s+)?"?([\p{L}][\p{L}\d.-]*)"?\s*[:=]\s*(.*?)\s*,?\s*$/u;

/** What an unknown key was meant to be; its last part alone may be a field's name. */
function nearestKey(key: string): string | null {
  const known = [...SCENE_KEYS.map((name) => ({ name: name, path: name })), ...FIELDS.flatMap((path) => [{ name: path, path }, { name: path.split('.').at(-1) ?? path, path }])];
  return nearestName(key, known)?.path ?? null;
}

/** Takes one line into what has been read; null, or what is wrong with it. */
function readSetting({ text, line }: TextLine, into: { changes: SockChange[]; scene: Record<string, unknown>; lines: Record<string, number> }, words: Words['lesson']): LessonProblem | null {
  const told = words.problems, problem = (key: string | null, value: string | undefined, allowed: string, message: string): LessonProblem =>
    ({ ...makeProblem(key, value, allowed, told.atLine(line, message)), line });
  const found = SETTING.exec(text.slice(0, LONGEST_SETTING));
  if (found === null) return problem(null, text.trim(), told.settingForm, told.noSetting(text.trim().slice(0, 60)));
  const key = found[1], value = found[2].replace(/^(["'])(.*)\1$/, '$2');
  const scene = SCENE_KEYS.find((name) => name === key.toLowerCase()) ?? (Object.hasOwn(OTHER_SPELLINGS, key.toLowerCase()) ? OTHER_SPELLINGS[key.toLowerCase()] : undefined);
  if (scene !== undefined) {
    const read = SCENE[scene](value);
    if ('allowed' in read) return problem(scene, value, read.allowed, told.badValue(scene, value.slice(0, 60), read.allowed));
    into.scene[scene] = read.value;
    into.lines[scene] = line;
    return null;
  }
  const path = FIELDS.find((field) => field.toLowerCase() === key.toLowerCase()) ?? key, rule = ruleAt(path);
  if (rule === null || rule.kind === 'group' || rule.kind === 'list') {
    const meant = nearestKey(key);
    return problem(key, value, meant ?? SCENE_KEYS.join(', '), told.unknownKey(key.slice(0, 60), meant));
  }
  const read = fieldValue(rule, value), allowed = describeAllowed(rule);
  if (read !== undefined && isLawful(path, read)) {
    into.changes.push({ path, value: read, line });
    return null;
  }
  const refusal = problem(path, value, allowed, told.badValue(path, value.slice(0, 60), allowed)), near = nearCount(rule, read);
  if (near === null) return refusal;
  // The sock's own limit is told where that is what is wrong with it.
  into.changes.push({ path, value: read, line, refused: { near, problem: refusal } });
  return null;
}

/** Reads the `key: value` lines of a marked step. A line that is not understood is told and left out; the others hold. */
export function readSettings(lines: readonly TextLine[], words: Words['lesson'], problems: LessonProblem[]): Settings {
  const into = { changes: [] as SockChange[], scene: {} as Record<string, unknown>, lines: {} as Record<string, number> };
  for (const line of lines) {
    if (/^\s*(#|\/\/|$)/.test(line.text)) continue;
    const problem = readSetting(line, into, words);
    if (problem !== null) problems.push(problem);
  }
  // Every value was read by its key's own function.
  return { changes: into.changes, scene: into.scene, lines: into.lines };
}
