import { FIT_PHRASES_DE } from './phrases-fit-de.ts';
import { PLAN_PHRASES_DE } from './phrases-plan-de.ts';
import { CHOOSE_PHRASES_DE } from './phrases-choose-de.ts';
import type { Language } from './words.ts';

/**
 * A sentence of the core and what it is in another language. In the English one `{n}` stands for a number with
 * its unit, `{f}` for a reckoning of numbers, `{}` for words that have a phrase of their own, `{t}` for words that
 * may have one, as a person's own text has none; in the other language `{1}`, `{2}` and so on are what was found there.
 */
export type Phrase = readonly [english: string, other: string];

const PHRASES: Readonly<Partial<Record<Language, readonly Phrase[]>>> = { de: [...PLAN_PHRASES_DE, ...FIT_PHRASES_DE, ...CHOOSE_PHRASES_DE] };
/** Between the last two of a list. */
const AND: Readonly<Record<Language, string>> = { en: ' and ', de: ' und ' }, OR: Readonly<Record<Language, string>> = { en: ' or ', de: ' oder ' };

const HOLES: Readonly<Record<string, string>> = {
  '{n}': '([−+±-]?\\d[\\d.,]*(?:e[+-]?\\d+)?(?: ?(?:mmHg|mm|cm|in\\b(?! \\d)|%))?)', '{f}': '([\\d.,+x()/ −-]+)', '{}': '(.+?)', '{t}': '(.+?)',
};

interface Matcher { readonly pattern: RegExp; readonly holes: readonly string[]; readonly other: string }

const matchers = new Map<Language, readonly Matcher[]>();

function matchersOf(language: Language): readonly Matcher[] {
  const known = matchers.get(language);
  if (known !== undefined) return known;
  const made = (PHRASES[language] ?? []).map(([english, other]) => {
    const parts = english.split(/(\{[nft]?\})/), holes = parts.filter((_part, place) => place % 2 === 1);
    const source = parts.map((part, place) => (place % 2 === 1 ? HOLES[part] : part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'))).join('');
    return { pattern: new RegExp(`^${source}$`), holes, other };
  });
  matchers.set(language, made);
  return made;
}

/** What the core says in English, in another language; null where it has no words for it yet. */
export function sayIn(language: Language, english: string): string | null {
  if (language === 'en' || english === '') return english;
  const said = sayWhole(language, english) ?? saySentences(language, english) ?? sayValues(language, english);
  return said === null ? null : beginAs(english, said);
}

function sayWhole(language: Language, text: string): string | null {
  for (const { pattern, holes, other } of matchersOf(language)) {
    const found = pattern.exec(text)?.slice(1).map((part, place) => sayPart(language, part, holes[place] ?? ''));
    if (found !== undefined && found.every((part) => part !== null)) return other.replace(/\{(\d)\}/g, (_hole, place: string) => found[Number(place) - 1] ?? '');
  }
  return null;
}

function saySentences(language: Language, text: string): string | null {
  const sentences = text.split(/(?<=[.!?]) (?=[\p{Lu}\d“"])/u), said = sentences.length < 2 ? [null] : sentences.map((sentence) => withBeginning(sentence, sayWhole(language, sentence)));
  return said.every((sentence) => sentence !== null) ? said.join(' ') : null;
}

function sayPart(language: Language, text: string, hole: string): string | null {
  if (hole === '{n}' || hole === '{f}') return text;
  return sayWhole(language, text) ?? sayWhole(language, lowerFirst(text)) ?? sayValues(language, text) ?? sayList(language, text) ?? (hole === '{t}' || /^[^\p{L}]*$/u.test(text) ? text : null);
}

/** `"front" or "back"`, `toe.tipStitches`: values and fields of a file stay as they are written there. */
function sayValues(language: Language, text: string): string | null {
  if (/^[a-z]+(?:\.\w+)+$/.test(text)) return text;
  return /^"[^"]*"(?: or "[^"]*")*$/.test(text) ? text.replaceAll(OR.en, OR[language]) : null;
}

/** `a heel on 38 stitches, and the toe`: parts that have phrases of their own, some of them with an `and` inside. */
function sayList(language: Language, text: string): string | null {
  for (let at = text.indexOf(AND.en); at >= 0; at = text.indexOf(AND.en, at + 1)) {
    const head = sayParts(language, text.slice(0, at)), last = sayWhole(language, text.slice(at + AND.en.length));
    if (head !== null && last !== null) return `${head}${AND[language]}${last}`;
  }
  return text.includes(', ') ? sayParts(language, text) : null;
}

function sayParts(language: Language, text: string): string | null {
  const said = text.split(', ').map((part) => sayWhole(language, part) ?? sayWhole(language, lowerFirst(part)));
  return said.every((part) => part !== null) ? said.join(', ') : null;
}

/** A sentence goes on beginning with a capital. */
function beginAs(english: string, said: string): string {
  return /^\p{Lu}/u.test(english) ? said.charAt(0).toUpperCase() + said.slice(1) : said;
}

function withBeginning(english: string, said: string | null): string | null { return said === null ? null : beginAs(english, said); }

function lowerFirst(text: string): string { return text.charAt(0).toLowerCase() + text.slice(1); }
