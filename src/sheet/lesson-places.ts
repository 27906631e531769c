import { nearestName } from '../base/nearest-name.ts';
import { buildProgram } from '../plan/build-program.ts';
import type { Plan } from '../plan/plan-types.ts';
import type { SectionName } from '../plan/step.ts';
import type { PartName, PassPlace } from './lesson.ts';

/** Sections of each part, in the order of knitting. A decreased toe and a short-row toe are both a toe. */
const PARTS: Readonly<Record<PartName, readonly SectionName[]>> = {
  'cast-on': ['cast-on'], leg: ['leg'], plain: ['plain'], ankle: ['ankle'],
  heel: ['heel-in', 'heel-level', 'heel-out'], 'heel-in': ['heel-in'], 'heel-level': ['heel-level'], 'heel-out': ['heel-out'],
  foot: ['foot'], toe: ['toe', 'toe-in', 'toe-out'], 'toe-in': ['toe-in'], 'toe-out': ['toe-out'], closing: ['closing'],
};
export const PART_NAMES = Object.keys(PARTS) as readonly PartName[];

const AT_WORDS = ['before', 'start', 'middle', 'end'] as const;

/** A place that was read, or the whole place that its words come nearest to; null where they come near none. */
export type ReadPlace = { readonly place: PassPlace } | { readonly meant: string | null };

/** `63`, `heel-in`, `heel-in start`, `heel-in end - 2`. */
export function readPlace(text: string): ReadPlace {
  const words = text.trim().toLowerCase();
  if (/^\d{1,6}$/.test(words)) return { place: { kind: 'number', pass: Number(words) } };
  const found = /^([\p{L}-]*\p{L})(?:\s+(\p{L}+))?(?:\s*([+-])\s*(\d{1,5}))?$/u.exec(words);
  if (found === null) return { meant: null };
  const [, part, at, sign, count] = found as unknown as readonly (string | undefined)[];
  const known = PART_NAMES.find((name) => name === part), where = at === undefined ? 'start' : AT_WORDS.find((word) => word === at);
  if (known === undefined || where === undefined) {
    const words = [known ?? nearestOf(part, PART_NAMES), at === undefined ? '' : where ?? nearestOf(at, AT_WORDS), count === undefined ? '' : `${sign ?? '+'} ${count}`];
    return { meant: words.includes(null) ? null : words.filter((word) => word !== '').join(' ') };
  }
  return { place: { kind: 'part', part: known, at: where, offset: count === undefined ? 0 : Number(`${sign ?? '+'}${count}`) } };
}

const nearestOf = (text: string | undefined, names: readonly string[]): string | null => nearestName(text ?? '', names.map((name) => ({ name })))?.name ?? null;

/** Section of every pass of a planned sock, the cast-on first; known before anything is knitted. */
export function listSections(plan: Plan): SectionName[] {
  return buildProgram(plan).steps.flatMap((step) => (step.do === 'knit' || step.do === 'cast-on' ? [step.section] : []));
}

/** The pass at a place, or null where this sock has none: no such part, or a number beyond it. */
export function findPass(sections: readonly SectionName[], place: PassPlace): number | null {
  const last = sections.length - 1;
  if (place.kind === 'number') return place.pass <= last ? place.pass : null;
  if (place.part === 'closing') return withinSock(last + place.offset, last);
  const parts = PARTS[place.part], first = sections.findIndex((section) => parts.includes(section));
  if (first < 0) return null;
  const end = last - [...sections].reverse().findIndex((section) => parts.includes(section));
  switch (place.at) {
    case 'before': return withinSock(first - 1 + place.offset, last);
    case 'start': return withinSock(first + place.offset, last);
    case 'middle': return withinSock(Math.floor((first + end) / 2) + place.offset, last);
    case 'end': return withinSock(end + place.offset, last);
    default: return place.at satisfies never;
  }
}

const withinSock = (pass: number, last: number): number | null => (pass >= 0 && pass <= last ? pass : null);
