import { CONTROLS_DE } from './controls-de.ts';
import { CHART_DE } from './chart-de.ts';
import { FILES_DE } from './files-de.ts';
import { LESSON_DE } from './lesson-de.ts';
import { PAGE_DE } from './page-de.ts';
import { PASSES_DE } from './passes-de.ts';
import { SHEET_DE } from './sheet-de.ts';
import { STAND_DE } from './stand-de.ts';
import { TIMELINE_DE } from './timeline-de.ts';
import { CONTROLS_EN } from './controls-en.ts';
import { CHART_EN } from './chart-en.ts';
import { FILES_EN } from './files-en.ts';
import { LESSON_EN } from './lesson-en.ts';
import { PAGE_EN } from './page-en.ts';
import { PASSES_EN } from './passes-en.ts';
import { SHEET_EN } from './sheet-en.ts';
import { STAND_EN } from './stand-en.ts';
import { TIMELINE_EN } from './timeline-en.ts';

/** Every text that the page or a print shows, by part of the page. A text with numbers in it is a function of them. */
const ENGLISH = {
  controls: CONTROLS_EN,
  page: PAGE_EN, passes: PASSES_EN, timeline: TIMELINE_EN, lesson: LESSON_EN, chart: CHART_EN, sheet: SHEET_EN, stand: STAND_EN, files: FILES_EN,
};
export type Words = typeof ENGLISH;
const GERMAN: Words = {
  controls: CONTROLS_DE,
  page: PAGE_DE, passes: PASSES_DE, timeline: TIMELINE_DE, lesson: LESSON_DE, chart: CHART_DE, sheet: SHEET_DE, stand: STAND_DE, files: FILES_DE,
};

export type Language = 'en' | 'de';
export const WORDS: Readonly<Record<Language, Words>> = { en: ENGLISH, de: GERMAN };
