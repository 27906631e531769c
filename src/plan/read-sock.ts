import { makeProblem, shorten } from '../base/make-problem.ts';
import type { Problem } from '../base/problem.ts';
import { utf8Length } from '../base/text-size.ts';
import { formatCount } from '../base/unit.ts';
import type { CheckedSock } from './check-sock.ts';
import { checkSock } from './check-sock.ts';

/** 5 MB. */
export const MOST_BYTES = 5_000_000;
/** A sock file is three deep; this leaves room for a slip that is then named. */
const DEEPEST = 32;

const BYTE_ORDER_MARK = '\ufeff';

/** How deep brackets nest outside texts, or one more than `limit` as soon as that is passed. */
function nestingDepth(text: string, limit: number): number {
  let depth = 0;
  let deepest = 0;
  let isInText = false;
  for (let i = 0; i < text.length && deepest <= limit; i++) {
    const letter = text[i];
    if (isInText) {
      if (letter === '\\') i++;
      else if (letter === '"') isInText = false;
    } else if (letter === '"') {
      isInText = true;
    } else if (letter === '{' || letter === '[') {
      depth++;
      deepest = Math.max(deepest, depth);
    } else if (letter === '}' || letter === ']') {
      depth--;
    }
  }
  return deepest;
}

const fail = (problem: Problem): CheckedSock => ({ file: null, problems: [problem] });

/**
 * Reads a sock file's text. Never throws: whatever is wrong, all of it, comes back as problems,
 * and `file` is null as soon as there is one.
 */
export function readSock(source: string): CheckedSock {
  if (utf8Length(source, MOST_BYTES) > MOST_BYTES) {
    return fail(makeProblem(null, `more than ${formatCount(MOST_BYTES)} bytes`, 'a file of at most 5 MB', 'The file is larger than 5 MB: no sock file is.'));
  }
  const text = source.startsWith(BYTE_ORDER_MARK) ? source.slice(1) : source;
  if (text.trim() === '') {
    return fail(makeProblem(null, '', 'a sock file (JSON)', 'The file is empty.'));
  }
  if (nestingDepth(text, DEEPEST) > DEEPEST) {
    return fail(makeProblem(null, text, 'objects and lists at most three deep', 'The file nests too deeply: a sock file is three deep.'));
  }
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    const why = error instanceof Error ? shorten(error.message, 120) : 'it cannot be parsed';
    return fail(makeProblem(null, text, 'a sock file (JSON)', `The file is not JSON: ${why}.`));
  }
  return checkSock(value);
}
