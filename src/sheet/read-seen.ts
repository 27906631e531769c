import { makeProblem } from '../base/make-problem.ts';
import type { Problem } from '../base/problem.ts';
import { BED, NEEDLE } from '../machine/codes.ts';
import type { Bed } from '../plan/sock-file.ts';
import type { Words } from '../words/words.ts';
import type { NeedleNumbers } from './needle-label.ts';
import { labelNeedle } from './needle-label.ts';
import { needlesIn } from './hand-moves.ts';
import { UNSEEN, unseenBeds } from './find-passes.ts';

export interface SeenOptions {
  readonly needlesPerBed: number;
  readonly numbers: NeedleNumbers;
  /** NEEDLE codes at the present place: what `all` means. */
  readonly present: Uint8Array;
  readonly words: Words;
}

export type ReadSeen = { readonly states: Uint8Array; readonly problems: readonly [] } | { readonly states: null; readonly problems: readonly Problem[] };

/** The needle of a label, by its own machine's counting; null if there is none of that name. */
export function findNeedle(label: string, needlesPerBed: number, numbers: NeedleNumbers): number | null {
  const wanted = label.toUpperCase();
  for (let needle = 1; needle <= needlesPerBed; needle++) if (labelNeedle(needle, needlesPerBed, numbers) === wanted) return needle;
  return null;
}

/**
 * Needles as they are typed: `back: all; front: L12-R12 working, 3 held left, rest empty`. What is not named was not
 * looked at, on a bed that is named too; `rest` names what is left of a bed. Never throws.
 */
export function readSeen(text: string, options: SeenOptions): ReadSeen {
  const { typed } = options.words.stand, states = unseenBeds(options.needlesPerBed), problems: Problem[] = [];
  const parts = text.split(';').map((part) => part.trim()).filter((part) => part !== '');
  if (parts.length === 0) problems.push(makeProblem(null, text, typed.example, typed.nothing));
  for (const part of parts) {
    const [name, ...rest] = part.split(':'), bed = bedOf(name, typed.beds);
    if (bed === null || rest.length !== 1) {
      problems.push(makeProblem(null, part, typed.example, typed.noBed(part)));
      continue;
    }
    for (const clause of clausesOf(rest[0], typed)) {
      const wrong = readClause(clause, bed, states, options);
      if (wrong !== null) problems.push(wrong);
    }
  }
  return problems.length > 0 ? { states: null, problems } : { states, problems: [] };
}

const bedOf = (name: string, beds: Readonly<Record<Bed, readonly string[]>>): Bed | null =>
  (['front', 'back'] as const).find((bed) => beds[bed].includes(name.trim().toLowerCase())) ?? null;

/** What is held beyond the working needles can be counted only when those are known, and the rest when all else is: they come last. */
function clausesOf(text: string, { to, rest }: Words['stand']['typed']): string[] {
  const clauses = text.split(',').map((clause) => joinRange(clause.trim().toLowerCase(), to)).filter((clause) => clause !== '');
  const orderOf = (clause: string): number => (rest.includes(clause.split(' ')[0]) ? 2 : /^\d+ \D+ \D+$/.test(clause) ? 1 : 0);
  return [0, 1, 2].flatMap((order) => clauses.filter((clause) => orderOf(clause) === order));
}

/** `l11 to r10`, `l11..r10` and `l11 – r10` are `l11-r10`. */
const joinRange = (clause: string, to: readonly string[]): string =>
  clause.replace(/\s+/g, ' ').replace(/ ?(?:[-‐-―−…]|\.{2,}) ?/g, '-').replace(/ (\S+) /g, (between, word: string) => (to.includes(word) ? '-' : between));

/** Puts needles `first` to `last` of a bed into a state. */
type Put = (first: number, last: number, state: number) => void;

/** Reads one clause into `states`; what is wrong with it, or null. */
function readClause(clause: string, bed: Bed, states: Uint8Array, options: SeenOptions): Problem | null {
  const { needlesPerBed, present, words: { stand: { typed } } } = options, start = BED[bed] * needlesPerBed, said = clause.split(/\s+/);
  const put: Put = (first, last, state) => { states.fill(state, start + first - 1, start + last); };
  if (said.length === 1 && typed.none.includes(clause)) {
    put(1, needlesPerBed, NEEDLE.empty);
    return null;
  }
  if (said.length === 1 && typed.all.includes(clause)) {
    for (const state of [NEEDLE.working, NEEDLE.held]) for (const needle of needlesIn(present, bed, state)) put(needle, needle, NEEDLE.working);
    return null;
  }
  const state = stateOf(said[1], typed.states);
  if (state === null || said.length > 3) return makeProblem(bed, clause, typed.example, typed.notRead(clause));
  if (said.length === 2 && typed.rest.includes(said[0])) {
    for (let needle = 1; needle <= needlesPerBed; needle++) if (states[start + needle - 1] === UNSEEN) put(needle, needle, state);
    return null;
  }
  const wrong = said.length === 3 ? putCount(said, needlesIn(states, bed, NEEDLE.working), state, put, options) : putRange(said[0], state, put, options);
  return wrong === null ? null : makeProblem(bed, clause, typed.example, wrong === 'unread' ? typed.notRead(clause) : wrong === 'beyond' ? typed.beyond(clause) : typed.noNeedle(said[0]));
}

function stateOf(word: string | undefined, states: Readonly<Record<keyof typeof NEEDLE, readonly string[]>>): number | null {
  for (const name of ['empty', 'working', 'held'] as const) if (word !== undefined && states[name].includes(word)) return NEEDLE[name];
  return null;
}

type Wrong = 'unread' | 'beyond' | 'no-needle';

/** `3 held left`: so many needles next to the working ones. */
function putCount([number, , where]: readonly string[], working: readonly number[], state: number, put: Put, { needlesPerBed, words }: SeenOptions): Wrong | null {
  const side = (['left', 'right'] as const).find((name) => words.stand.typed.sides[name].includes(where)), count = Number(number);
  const first = working[0], last = working.at(-1);
  if (side === undefined || !Number.isInteger(count) || first === undefined || last === undefined) return 'unread';
  const [low, high] = side === 'left' ? [first - count, first - 1] : [last + 1, last + count];
  if (low < 1 || high > needlesPerBed) return 'beyond';
  put(low, high, state);
  return null;
}

/** `l12-r12`, or one needle. */
function putRange(range: string, state: number, put: Put, { needlesPerBed, numbers }: SeenOptions): Wrong | null {
  const ends = range.split('-').map((label) => findNeedle(label, needlesPerBed, numbers)), [first, last = first] = ends;
  if (first == null || last == null || ends.length > 2) return 'no-needle';
  put(Math.min(first, last), Math.max(first, last), state);
  return null;
}
