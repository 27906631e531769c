import type { Language, Words } from './words.ts';
import { WORDS } from './words.ts';

let language: Language = 'en';

/** The language of the page, chosen before any of it is built: another one begins with the page anew. */
export function setPageLanguage(chosen: Language): void { language = chosen; }
export function pageLanguage(): Language { return language; }

/** The page's words. What is printed or written to a file takes its words as an argument instead. */
export function pageWords(): Words { return WORDS[language]; }
