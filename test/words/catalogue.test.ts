import { describe, expect, it } from 'vitest';
import { WORDS } from '../../src/words/words.ts';

/** Alike in both languages: forms of files, units, names that are not translated. A new one wants its reason here. */
const ALIKE: readonly (readonly [string, string])[] = [
  ['CSV', 'a form of files'], ['cm', 'a unit'], ['mm', 'a unit'], ['Mondopoint', 'the name of a system of shoe sizes, by an ISO standard'], ['Name', 'the same word'], ['Arm', 'the same word'],
  ['Start', 'the same word'], ['Text', 'the same word'], ['PNG', 'a form of files'], ['SVG', 'a form of files'], ['GIF', 'a form of files'], ['GLB', 'a form of files'], ['STL', 'a form of files'], ['JSON', 'a form of files'],
  ['US Letter', 'the name of a size of paper'], ['Plan', 'the same word'], ['In', 'the same word'],
];
/** Numbers with their units, put together alike in both. */
const PUT_TOGETHER: readonly string[] = ['controls.shoeLength', 'files.exports.print.perInch', 'sizes.yarn', 'stage.layerOff'];
/** Words that English has and German has not. */
const ENGLISH = /\b(the|of|with|and|or|is|are|this|that|sock|heel|needle|stitch(es)?|pass(es)?|yarn|bed|row|your|you)\b/i;

interface Leaf { readonly path: string; readonly en: string; readonly de: string }

/** Every text of both catalogues; functions are asked with a `7` for each argument. */
function leaves(en: unknown, de: unknown, path = ''): Leaf[] {
  if (typeof en === 'string') return [{ path, en, de: String(de) }];
  if (typeof en === 'function') return [{ path, en: ask(en as (...given: string[]) => unknown), de: ask(de as (...given: string[]) => unknown, en.length) }];
  if (typeof en !== 'object' || en === null) return [];
  const own = en as Readonly<Record<string, unknown>>, other = de as Readonly<Record<string, unknown>>;
  return Object.keys(own).flatMap((key) => leaves(own[key], other[key], path === '' ? key : `${path}.${key}`));
}

function ask(words: (...given: string[]) => unknown, length = words.length): string {
  return String(words(...Array<string>(length).fill('7')));
}

/** Words that may be typed are as many as a language has; standard sizes have their English names at their source. */
const OWN_KEYS = /^\.(stand\.typed\.\w+\.|sheet\.sizeNames)/;

function keysOf(words: unknown, path = ''): string[] {
  if (OWN_KEYS.test(`${path}.`) && typeof words === 'object') return [path];
  if (typeof words !== 'object' || words === null) return [path];
  return Object.entries(words).flatMap(([key, inner]) => keysOf(inner, `${path}.${key}`));
}

describe('the German catalogue', () => {
  const all = leaves(WORDS.en, WORDS.de);

  it('has the same keys as the English one', () => {
    expect(keysOf(WORDS.de).sort()).toEqual(keysOf(WORDS.en).sort());
    expect(all.length).toBeGreaterThan(400);
  });

  it('has no text that is the English one, but for a few with their reasons', () => {
    const isAlike = ({ path, en }: Leaf): boolean => !/\p{L}{2}/u.test(en) || ALIKE.some(([word]) => word.toLowerCase() === en.toLowerCase()) || PUT_TOGETHER.includes(path);
    expect(all.filter((leaf) => leaf.en === leaf.de && !isAlike(leaf)).map(({ path, en }) => `${path}: ${en}`)).toEqual([]);
  });

  it('has no English word in it, and is empty only where the English one is', () => {
    expect(all.filter(({ de }) => ENGLISH.test(de.replace(/\{[\w-]+\}/g, ''))).map(({ path, de }) => `${path}: ${de}`)).toEqual([]);
    expect(all.filter(({ en, de }) => (de.trim() === '') !== (en.trim() === '')).map(({ path }) => path)).toEqual([]);
  });

  it('keeps every number that it is told', () => {
    const sevens = (text: string): number => text.split('7').length - 1;
    expect(all.filter(({ en, de }) => sevens(en) > 0 && sevens(de) === 0).map(({ path, de }) => `${path}: ${de}`)).toEqual([]);
  });
});
