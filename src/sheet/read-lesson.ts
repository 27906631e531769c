import { makeProblem } from '../base/make-problem.ts';
import { utf8Length } from '../base/text-size.ts';
import { planSock } from '../plan/plan-sock.ts';
import { readSock } from '../plan/read-sock.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { withField } from '../plan/with-field.ts';
import type { Words } from '../words/words.ts';
import { closesFence, readBlocks, readFence, readHeading, type TextLine } from './lesson-markdown.ts';
import { findPass, listSections } from './lesson-places.ts';
import { readSettings, type Settings, type SockChange } from './lesson-settings.ts';
import { LESSON_SOCK, type Lesson, type LessonProblem, type LessonScene, type LessonStep, type PassPlace } from './lesson.ts';

export interface ReadLesson {
  /** Null where there is no step at all to show. */
  readonly lesson: Lesson | null;
  /** Everything that was not understood, in the order of its lines; the rest of the lesson runs. */
  readonly problems: readonly LessonProblem[];
}

/** 200 kB: a long book chapter. */
export const MOST_LESSON_BYTES = 200_000;
/** More steps than this are no lesson. */
const MOST_STEPS = 100;
/** Problems told in full; the rest is counted. */
const MOST_TOLD = 30;
const SOCK_FENCE = 'sock';

/** Lines of a part of the text: what is said, and what its fences set. */
interface Part { readonly title: string; readonly line: number; readonly said: TextLine[]; readonly fences: TextLine[][] }

/**
 * Reads a lesson: Markdown with a `##` heading a step and, in a fence marked `sock`, what the simulator is to
 * show. Never throws; whatever is wrong is told with its line.
 */
export function readLesson(source: string, words: Words['lesson']): ReadLesson {
  const told = words.problems, problems: LessonProblem[] = [];
  const fail = (message: string, allowed: string): ReadLesson =>
    ({ lesson: null, problems: [{ ...makeProblem(null, undefined, allowed, told.atLine(1, message)), line: 1 }] });
  if (utf8Length(source, MOST_LESSON_BYTES) > MOST_LESSON_BYTES) return fail(told.tooLarge, told.tooLargeAllowed);
  // Characters that no text has: a picture or a program, opened as one.
  if (/[\u0000-\u0008\u000e-\u001a]|\ufffd{3}/.test(source)) return fail(told.notText, told.lessonForm);
  if (source.trim() === '') return fail(told.empty, told.lessonForm);
  const { head, steps } = splitSteps(source, words, problems);
  if (steps.length === 0) return fail(told.noStep, told.lessonForm);
  const base = readBase(head, words, problems);
  const lesson: Lesson = {
    title: head.title === '' ? words.untitled : head.title, intro: readSaid(head, words, problems), sock: base.sock,
    steps: steps.slice(0, MOST_STEPS).map((part) => readStep(part, base, words, problems)),
  };
  if (steps.length > MOST_STEPS) tell(problems, steps[MOST_STEPS].line, null, `${steps.length}`, `${MOST_STEPS}`, words, told.tooManySteps(steps.length, MOST_STEPS));
  return { lesson, problems: inOrder(problems, words) };
}

function tell(problems: LessonProblem[], line: number, field: string | null, value: string | undefined, allowed: string | null, words: Words['lesson'], message: string): void {
  problems.push({ ...makeProblem(field, value, allowed, words.problems.atLine(line, message)), line });
}

function inOrder(problems: readonly LessonProblem[], words: Words['lesson']): LessonProblem[] {
  const sorted = [...problems].sort((a, b) => a.line - b.line), more = sorted.slice(MOST_TOLD);
  if (more.length > 0) tell(sorted, more[0].line, null, undefined, null, words, words.problems.more(more.length));
  return more.length === 0 ? sorted : [...sorted.slice(0, MOST_TOLD), ...sorted.slice(-1)];
}

/** Takes the text apart at its second-level headings. Headings inside fences are text, comments are left out. */
function splitSteps(source: string, words: Words['lesson'], problems: LessonProblem[]): { readonly head: Part; readonly steps: readonly Part[] } {
  const lines = withoutComments(source).split(/\r\n|\r|\n/).map((text, i): TextLine => ({ text, line: i + 1 }));
  const steps: Part[] = [];
  let part: Part = { title: '', line: 1, said: [], fences: [] };
  let head = part;
  for (let i = 0; i < lines.length; i++) {
    const { text, line } = lines[i], heading = readHeading(text), fence = readFence(text);
    if (fence !== null) {
      const end = findFenceEnd(lines, i, fence.mark), isSock = fence.word === SOCK_FENCE;
      if (end === null) tell(problems, line, null, text.trim(), fence.mark, words, words.problems.openFence(fence.mark));
      const stop = end ?? nextHeading(lines, i);
      if (isSock) part.fences.push(lines.slice(i + 1, stop));
      else part.said.push(...lines.slice(i, stop + 1));
      i = end ?? stop - 1;
    } else if (heading?.level === 2) {
      part = { title: heading.text === '' ? words.untitledStep(steps.length + 1) : heading.text, line, said: [], fences: [] };
      steps.push(part);
    } else if (heading?.level === 1 && head.title === '' && steps.length === 0) {
      head = { ...head, title: heading.text, line };
      part = head;
    } else part.said.push(lines[i]);
  }
  return { head, steps };
}

/** Comments keep their lines, so that the lines after them keep their numbers. */
function withoutComments(source: string): string {
  let rest = source.startsWith('\ufeff') ? source.slice(1) : source, kept = '';
  for (;;) {
    const from = rest.indexOf('<!--'), end = from < 0 ? -1 : rest.indexOf('-->', from + 4);
    if (end < 0) return kept + rest;
    kept += rest.slice(0, from) + rest.slice(from, end).replace(/[^\r\n]/g, '');
    rest = rest.slice(end + 3);
  }
}

function findFenceEnd(lines: readonly TextLine[], from: number, mark: string): number | null {
  for (let i = from + 1; i < lines.length; i++) {
    if (closesFence(lines[i].text, mark)) return i;
    // A fence that was not closed ends with its step.
    if (readHeading(lines[i].text)?.level === 2) return null;
  }
  return null;
}

function nextHeading(lines: readonly TextLine[], from: number): number {
  const found = lines.findIndex(({ text }, i) => i > from && readHeading(text)?.level === 2);
  return found < 0 ? lines.length : found;
}

function readSaid({ said }: Part, words: Words['lesson'], problems: LessonProblem[]): Lesson['intro'] {
  return readBlocks(said, (name, line) => { tell(problems, line, null, `{${name}}`, null, words, words.problems.unknownFigure(name)); });
}

interface Base { readonly sock: SockFile; readonly scene: LessonScene }

function readBase(head: Part, words: Words['lesson'], problems: LessonProblem[]): Base {
  const { sock, settings } = readFences(head, { ...LESSON_SOCK, name: words.sockName }, words, problems);
  // A pass is a step's own matter.
  const { pass: _pass, play: _play, ...scene } = settings.scene;
  return { sock, scene };
}

/** The sock and the scene that a part's fences set, beginning with the given sock. */
function readFences(part: Part, from: SockFile, words: Words['lesson'], problems: LessonProblem[]): { readonly sock: SockFile; readonly settings: Settings } {
  let sock = from, settings: Settings = { changes: [], scene: {}, lines: {} };
  for (const lines of part.fences) {
    if (lines.find(({ text }) => text.trim() !== '')?.text.trimStart().startsWith('{') === true) sock = readWhole(lines, sock, words, problems);
    else {
      const next = readSettings(lines, words, problems);
      settings = { changes: [...settings.changes, ...next.changes], scene: { ...settings.scene, ...next.scene }, lines: { ...settings.lines, ...next.lines } };
    }
  }
  return { sock: withChanges(sock, settings.changes, words, problems), settings };
}

/** A whole sock file in a fence; one that cannot be knitted is told, and the sock before it holds. */
function readWhole(lines: readonly TextLine[], before: SockFile, words: Words['lesson'], problems: LessonProblem[]): SockFile {
  const line = lines[0]?.line ?? 1, { file, problems: wrong } = readSock(lines.map(({ text }) => text).join('\n'));
  const refused = file === null ? wrong : planSock(file).plan === null ? planSock(file).problems : [];
  for (const { field, value, allowed, message } of refused) problems.push({ field, value, allowed, message: words.problems.atLine(line, message), line });
  return file === null || refused.length > 0 ? before : file;
}

/** All changes if they make a sock, else as many as do, one after the other; the rest is told. */
function withChanges(sock: SockFile, changes: readonly SockChange[], words: Words['lesson'], problems: LessonProblem[]): SockFile {
  const changed = withLawful(sock, changes.filter(({ refused }) => refused === undefined), words, problems);
  for (const { path, value, line, refused } of changes) {
    if (refused === undefined) continue;
    const limit = planSock(withField(changed, path, refused.near)).problems.find(({ field, allowed }) => field === path && allowed !== null)?.allowed;
    if (limit === undefined || limit === null) problems.push(refused.problem);
    else tell(problems, line, path, String(value), limit, words, words.problems.badValue(path, String(value), limit));
  }
  return changed;
}

function withLawful(sock: SockFile, changes: readonly SockChange[], words: Words['lesson'], problems: LessonProblem[]): SockFile {
  const placed = changes.filter(({ path, value, line }) => {
    if (fieldAt(withField(sock, path, value), path) === value) return true;
    tell(problems, line, path, String(value), null, words, words.problems.noPlace(path));
    return false;
  });
  const all = placed.reduce((file, { path, value }) => withField(file, path, value), sock);
  if (placed.length === 0 || planSock(all).plan !== null) return all;
  let file = sock;
  for (const { path, value, line } of placed) {
    const tried = withField(file, path, value), { plan, problems: wrong } = planSock(tried);
    if (plan !== null) file = tried;
    else tell(problems, line, path, String(value), wrong[0]?.allowed ?? null, words, words.problems.cannotKnit(path, String(value), wrong[0]?.message ?? ''));
  }
  return file;
}

function fieldAt(file: SockFile, path: string): unknown {
  let held: unknown = file;
  for (const key of path.split('.')) held = (held as Readonly<Record<string, unknown>> | undefined)?.[key];
  return held;
}

function readStep(part: Part, base: Base, words: Words['lesson'], problems: LessonProblem[]): LessonStep {
  const { sock, settings: { scene: own, lines } } = readFences(part, base.sock, words, problems);
  const { plan } = planSock(sock), sections = plan === null ? [] : listSections(plan);
  const isThere = (key: 'pass' | 'play', place: PassPlace | undefined): boolean => {
    if (place === undefined || findPass(sections, place) !== null) return true;
    tell(problems, lines[key] ?? part.line, key, wordsOf(place), words.problems.passesAllowed(sections.length - 1, [...new Set(sections)].join(', ')), words,
      words.problems.noSuchPass(wordsOf(place), sections.length - 1, [...new Set(sections)].join(', ')));
    return false;
  };
  const { pass, play, ...rest } = own, hasPass = isThere('pass', pass), hasPlay = isThere('play', play?.from) && isThere('play', play?.to);
  const isAtMachine = own.pose === undefined && (pass !== undefined || play !== undefined);
  return {
    title: part.title, line: part.line, blocks: readSaid(part, words, problems), sock,
    scene: {
      ...base.scene, ...(isAtMachine ? { pose: 'beds' as const } : {}), ...rest,
      ...(pass !== undefined && hasPass ? { pass } : {}), ...(play !== undefined && hasPlay ? { play } : {}),
    },
  };
}

/** A place as it is written in a lesson. */
function wordsOf(place: PassPlace): string {
  if (place.kind === 'number') return String(place.pass);
  const { part, at, offset } = place;
  return `${part} ${at}${offset === 0 ? '' : ` ${offset < 0 ? '-' : '+'} ${Math.abs(offset)}`}`;
}
