import type { Problem } from './problem.ts';

/** Longest `value` and `field` of a problem, in UTF-16 units. */
export const LONGEST_SUMMARY = 200;

/** Entries of a list or object that a summary names before it says how many more there are. */
const SHOWN_ENTRIES = 8;
const SHOWN_DEPTH = 2;

/** Cuts a text to at most `longest` characters, with an ellipsis in place of what went. */
export function shorten(text: string, longest = LONGEST_SUMMARY): string {
  if (text.length <= longest) return text;
  // Never half of a surrogate pair at the cut.
  const end = /[\ud800-\udbff]/.test(text.charAt(longest - 2)) ? longest - 2 : longest - 1;
  return `${text.slice(0, end)}…`;
}

function summariseAt(value: unknown, depth: number): string {
  if (typeof value === 'string') return JSON.stringify(shorten(value));
  if (typeof value === 'function' || typeof value === 'symbol') return typeof value;
  if (typeof value !== 'object' || value === null) return String(value);
  const isList = Array.isArray(value);
  const keys = Object.keys(value);
  if (depth === 0) return isList ? `[${keys.length} entries]` : `{${keys.length} fields}`;
  const shown = keys.slice(0, SHOWN_ENTRIES).map((key) => {
    const inner = summariseAt((value as Record<string, unknown>)[key], depth - 1);
    return isList ? inner : `${JSON.stringify(shorten(key))}: ${inner}`;
  });
  if (keys.length > SHOWN_ENTRIES) shown.push(`… ${keys.length - SHOWN_ENTRIES} more`);
  return isList ? `[${shown.join(', ')}]` : `{${shown.join(', ')}}`;
}

/** Any value in at most 200 characters. Never throws on what JSON can hold, rings and depths included. */
export function summarise(value: unknown): string {
  return shorten(summariseAt(value, SHOWN_DEPTH));
}

/**
 * A problem with its four keys. `value` is what was given, summarised; `undefined` where nothing was.
 * Texts in `allowed` and `message` are the caller's own and stay as they are.
 */
export function makeProblem(field: string | null, value: unknown, allowed: string | null, message: string): Problem {
  return {
    field: field === null ? null : shorten(field),
    value: value === undefined ? null : summarise(value),
    allowed,
    message,
  };
}
