import { FIGURE_NAMES } from './lesson-figures.ts';
import type { FigureOf, Inline, LessonBlock, LessonMark } from './lesson.ts';

/** A line of a lesson's text and its number, from 1. */
export interface TextLine { readonly text: string; readonly line: number }

/** Told of a `{name}` in the text that is no figure. */
export type OnUnknownFigure = (name: string, line: number) => void;

/** First words of a marked paragraph, in every language of the page. */
const MARK_WORDS: Readonly<Record<string, LessonMark>> = {
  look: 'look', try: 'try', question: 'question', answer: 'answer',
  schau: 'look', schau_hin: 'look', probier: 'try', probiere: 'try', versuch: 'try', frage: 'question', antwort: 'answer',
};

const LIST_ITEM = /^ {0,3}(?:[-*+]|(\d{1,9})[.)])\s+(.*)$/;
const RULE = /^ {0,3}([-*_])(?:\s*\1){2,}\s*$/;
const FENCE = /^ {0,3}(`{3,}|~{3,})\s*(.*)$/;

/** The mark and the word after a fence that opens, or null. */
export function readFence(text: string): { readonly mark: string; readonly word: string } | null {
  const found = FENCE.exec(text);
  return found === null ? null : { mark: found[1], word: found[2].trim().split(/\s+/)[0]?.toLowerCase() ?? '' };
}

/** Whether a line closes a fence that such a mark has opened. */
export function closesFence(text: string, mark: string): boolean {
  const inner = text.trim();
  return inner.length >= mark.length && inner === mark.charAt(0).repeat(inner.length);
}

/** Level and text of a heading, without the signs that may close it; null for any other line. */
export function readHeading(line: string): { readonly level: number; readonly text: string } | null {
  const found = /^ {0,3}(#{1,6})(?:\s+(.*))?$/.exec(line);
  if (found === null) return null;
  const text = ((found[2] as string | undefined) ?? '').trim();
  let end = text.length;
  while (text[end - 1] === '#') end -= 1;
  return { level: found[1].length, text: end === 0 || isSpace(text[end - 1]) ? text.slice(0, end).trimEnd() : text };
}

/** What is being gathered from line to line. */
interface Draft { lines: TextLine[]; items: TextLine[][]; isNumbered: boolean }

/**
 * A small part of Markdown as plain data: paragraphs, lists of one level, headings, fenced code; in them
 * strong, emphasis, code, links (https only, others as their text) and figures in braces. Everything else,
 * HTML too, is text. Never throws.
 */
export function readBlocks(lines: readonly TextLine[], onUnknownFigure: OnUnknownFigure): LessonBlock[] {
  const blocks: LessonBlock[] = [], draft: Draft = { lines: [], items: [], isNumbered: false };
  const inline = (gathered: readonly TextLine[]): Inline[] =>
    readInlines(gathered.map(({ text }) => text.trim()).join(' '), (name) => { onUnknownFigure(name, gathered[0]?.line ?? 0); });
  const flush = (): void => {
    if (draft.items.length > 0) blocks.push({ kind: 'list', isNumbered: draft.isNumbered, items: draft.items.map(inline) });
    else if (draft.lines.length > 0) blocks.push(markParagraph(draft.lines, inline));
    draft.lines = [];
    draft.items = [];
  };
  for (let i = 0; i < lines.length; i++) {
    const line = lines[i], fence = readFence(line.text);
    if (fence !== null) {
      flush();
      const from = i + 1;
      do i += 1; while (i < lines.length && !closesFence(lines[i].text, fence.mark));
      blocks.push({ kind: 'code', text: lines.slice(from, i).map(({ text }) => text).join('\n') });
      continue;
    }
    takeLine(line, draft, flush, (text) => { blocks.push({ kind: 'heading', parts: inline([{ text, line: line.line }]) }); });
  }
  flush();
  return blocks;
}

function takeLine({ text: given, line }: TextLine, draft: Draft, flush: () => void, onHeading: (text: string) => void): void {
  // A quotation is its text.
  const text = given.replace(/^ {0,3}>\s?/, '');
  if (text.trim() === '' || RULE.test(text)) { flush(); return; }
  const heading = readHeading(text);
  if (heading !== null) {
    flush();
    onHeading(heading.text);
    return;
  }
  const item = LIST_ITEM.exec(text);
  if (item !== null) {
    const isNumbered = (item[1] as string | undefined) !== undefined;
    if (draft.items.length === 0 || draft.isNumbered !== isNumbered) flush();
    draft.isNumbered = isNumbered;
    draft.items.push([{ text: item[2], line }]);
    return;
  }
  if (readMark(text) !== null) flush();
  const open = draft.items.at(-1);
  if (open === undefined) draft.lines.push({ text, line });
  else open.push({ text, line });
}

/** `Look:`, `**Look:**`, `*Frage*:` at the beginning of a paragraph. */
function readMark(text: string): { readonly mark: LessonMark; readonly rest: string } | null {
  const found = /^\s*(?:\*\*|__|\*|_)?([\p{L}]+(?: hin)?)\s*(?::\s*(?:\*\*|__|\*|_)?|(?:\*\*|__|\*|_)\s*:)\s*(.*)$/u.exec(text);
  const word = found?.[1].toLowerCase().replace(' ', '_') ?? '';
  return found === null || !Object.hasOwn(MARK_WORDS, word) ? null : { mark: MARK_WORDS[word], rest: found[2] };
}

function markParagraph(lines: readonly TextLine[], inline: (lines: readonly TextLine[]) => Inline[]): LessonBlock {
  const found = readMark(lines[0].text);
  if (found === null) return { kind: 'paragraph', parts: inline(lines) };
  return { kind: 'mark', mark: found.mark, parts: inline([{ text: found.rest, line: lines[0].line }, ...lines.slice(1)]) };
}

/** Deeper and longer than this, and past so many marks, nothing is emphasised: what nests or runs on so is a slip, and is shown as it stands. */
const DEEPEST = 6, LONGEST_SPAN = 2000, MOST_MARKS = 20;

/** A piece of text with its emphasis, code, links and figures. */
export function readInlines(text: string, onUnknownFigure: (name: string) => void = () => undefined, depth = 0): Inline[] {
  const parts: Inline[] = [];
  let plain = '', at = 0;
  const push = (part: Inline): void => {
    if (plain !== '') parts.push({ kind: 'text', text: plain });
    plain = '';
    parts.push(part);
  };
  while (at < text.length) {
    const found = readEscape(text, at) ?? readSpan(text, at, onUnknownFigure, depth);
    if (found === null) { plain += text[at]; at += 1; continue; }
    if (typeof found.part === 'string') plain += found.part;
    else push(found.part);
    at = found.end;
  }
  if (plain !== '') parts.push({ kind: 'text', text: plain });
  return parts;
}

interface Found { readonly part: Inline | string; readonly end: number }

function readEscape(text: string, at: number): Found | null {
  return text[at] === '\\' && /[!-/:-@[-`{-~]/.test(text[at + 1] ?? '') ? { part: text[at + 1], end: at + 2 } : null;
}

function readSpan(text: string, at: number, onUnknownFigure: (name: string) => void, depth: number): Found | null {
  switch (text[at]) {
    case '`': return readCode(text, at);
    case '{': return readFigure(text, at, onUnknownFigure);
    case '*': case '_': return depth < DEEPEST ? readEmphasis(text, at, onUnknownFigure, depth) : null;
    case '!': return text[at + 1] === '[' ? imageText(text, at) : null;
    case '[': return depth < DEEPEST ? readLink(text, at, onUnknownFigure, depth) : null;
    default: return null;
  }
}

function readCode(text: string, at: number): Found | null {
  const mark = /^`+/.exec(text.slice(at, at + 8))?.[0] ?? '`', from = at + mark.length, length = text.slice(from, from + LONGEST_SPAN).indexOf(mark);
  return length < 1 ? null : { part: { kind: 'code', text: text.slice(from, from + length).trim() }, end: from + length + mark.length };
}

function readFigure(text: string, at: number, onUnknown: (name: string) => void): Found | null {
  const found = /^\{(?:(plain|more)\.)?([\p{L}][\p{L}\d-]{0,30})\}/u.exec(text.slice(at, at + 48));
  if (found === null) return null;
  const [whole, of, given] = found as unknown as readonly [string, FigureOf | undefined, string];
  const name = FIGURE_NAMES.find((known) => known.toLowerCase() === given.toLowerCase());
  if (name === undefined) { onUnknown(given); return { part: whole, end: at + whole.length }; }
  return { part: { kind: 'figure', name, of: of ?? 'this' }, end: at + whole.length };
}

const isSpace = (letter: string | undefined): boolean => letter === undefined || /\s/.test(letter);
const isLetter = (letter: string | undefined): boolean => letter !== undefined && /[\p{L}\p{N}]/u.test(letter);

/** `**strong**`, `*emphasis*`, and the same with underscores, which stand at a word's ends only. */
function readEmphasis(text: string, at: number, onUnknown: (name: string) => void, depth: number): Found | null {
  const letter = text[at], isDouble = text[at + 1] === letter, mark = isDouble ? letter + letter : letter, from = at + mark.length;
  if (isSpace(text[from]) || (letter === '_' && isLetter(text[at - 1]))) return null;
  const span = text.slice(from, from + LONGEST_SPAN);
  for (let length = span.indexOf(mark, 1), tries = 0; length > 0 && tries < MOST_MARKS; length = span.indexOf(mark, length + 1), tries++) {
    const end = from + length, after = text[end + mark.length] as string | undefined;
    // A single mark does not end inside a double one.
    const isPartOfDouble = !isDouble && (after === letter || text[end - 1] === letter);
    if (isSpace(text[end - 1]) || isPartOfDouble || text[end - 1] === '\\' || (letter === '_' && isLetter(after))) continue;
    return { part: { kind: isDouble ? 'strong' : 'emphasis', parts: readInlines(text.slice(from, end), onUnknown, depth + 1) }, end: end + mark.length };
  }
  return null;
}

const LINK = /^\[([^[\]]{1,300})\]\(\s*<?([^\s()<>]{0,500})>?(?:\s+"[^"]{0,200}")?\s*\)/;

/** Only https leads out of the page; of any other link the text is left. */
function readLink(text: string, at: number, onUnknown: (name: string) => void, depth: number): Found | null {
  const found = LINK.exec(text.slice(at, at + 1100));
  if (found === null) return null;
  const [whole, words, href] = found, parts = readInlines(words, onUnknown, depth + 1);
  const isSafe = /^https:\/\/[^\s/?#@]+(?:[/?#]|$)/i.test(href);
  return { part: isSafe ? { kind: 'link', parts, href } : words, end: at + whole.length };
}

function imageText(text: string, at: number): Found | null {
  const found = LINK.exec(text.slice(at + 1, at + 1101));
  return found === null ? null : { part: found[1], end: at + 1 + found[0].length };
}

/** The words of parsed text, for a voice; figures by the given function. */
export function plainText(parts: readonly Inline[], figure: (name: Extract<Inline, { kind: 'figure' }>) => string): string {
  return parts.map((part) => {
    switch (part.kind) {
      case 'text': case 'code': return part.text;
      case 'strong': case 'emphasis': case 'link': return plainText(part.parts, figure);
      case 'figure': return figure(part);
      default: return part satisfies never;
    }
  }).join('');
}
