import { pageLanguage } from '../words/page-words.ts';
import { sayIn } from '../words/say.ts';
import { setAttributes, setText } from './dom.ts';
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

/** Writes such a sentence into an element. */
export function setTold(element: Element, english: string): void {
  setText(element, told(english));
  setAttributes(element, { lang: langOf(english) });
}
