import { pageLanguage } from '../words/page-words.ts';
import { sayIn } from '../words/say.ts';
import { inFigures } from './units.ts';

/** A sentence of the core in the page's language and figures; as it is where there are no words for it yet. */
export function told(english: string): string {
  const said = sayIn(pageLanguage(), english);
  return said === null ? english : inFigures(said);
}

/** For the `lang` of an element that shows such a sentence: `en` where it stays English on a page that is not. */
export function langOf(english: string): 'en' | null {
  return sayIn(pageLanguage(), english) === null ? 'en' : null;
}
