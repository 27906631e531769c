import { CONTROLS_DE } from './controls-de.ts';
import { CHART_DE } from './chart-de.ts';
import { CLOSE_DE } from './close-de.ts';
import { FILES_DE } from './files-de.ts';
import { LESSON_DE } from './lesson-de.ts';
import { MEASURES_DE } from './measures-de.ts';
import { PLAN_DE } from './plan-de.ts';
import { STAGE_DE } from './stage-de.ts';
import { FIT_DE } from './fit-de.ts';
import { ADVICE_DE } from './advice-de.ts';
import { COMPARE_DE } from './compare-de.ts';
import { SIZES_DE } from './sizes-de.ts';
import { SWATCHES_DE } from './swatches-de.ts';
import { MESSAGES_DE } from './messages-de.ts';
import { PAGE_DE } from './page-de.ts';
import { PASSES_DE } from './passes-de.ts';
import { SHEET_DE } from './sheet-de.ts';
import { STITCH_DE } from './stitch-de.ts';
import { STAND_DE } from './stand-de.ts';
import { TIMELINE_DE } from './timeline-de.ts';
import { CONTROLS_EN } from './controls-en.ts';
import { CHART_EN } from './chart-en.ts';
import { CLOSE_EN } from './close-en.ts';
import { FILES_EN } from './files-en.ts';
import { LESSON_EN } from './lesson-en.ts';
import { MEASURES_EN } from './measures-en.ts';
import { PLAN_EN } from './plan-en.ts';
import { STAGE_EN } from './stage-en.ts';
import { FIT_EN } from './fit-en.ts';
import { ADVICE_EN } from './advice-en.ts';
import { COMPARE_EN } from './compare-en.ts';
import { SIZES_EN } from './sizes-en.ts';
import { SWATCHES_EN } from './swatches-en.ts';
import { MESSAGES_EN } from './messages-en.ts';
import { PAGE_EN } from './page-en.ts';
import { PASSES_EN } from './passes-en.ts';
import { SHEET_EN } from './sheet-en.ts';
import { STITCH_EN } from './stitch-en.ts';
import { STAND_EN } from './stand-en.ts';
import { TIMELINE_EN } from './timeline-en.ts';

/** Every text that the page or a print shows, by part of the page. A text with numbers in it is a function of them. */
const ENGLISH = {
  controls: CONTROLS_EN, messages: MESSAGES_EN, swatches: SWATCHES_EN, sizes: SIZES_EN, compare: COMPARE_EN, advice: ADVICE_EN, fit: FIT_EN, stage: STAGE_EN, plan: PLAN_EN, measures: MEASURES_EN,
  page: PAGE_EN, passes: PASSES_EN, timeline: TIMELINE_EN, close: CLOSE_EN, lesson: LESSON_EN, chart: CHART_EN, sheet: SHEET_EN, stand: STAND_EN, files: FILES_EN, stitch: STITCH_EN,
};
export type Words = typeof ENGLISH;
const GERMAN: Words = {
  controls: CONTROLS_DE, messages: MESSAGES_DE, swatches: SWATCHES_DE, sizes: SIZES_DE, compare: COMPARE_DE, advice: ADVICE_DE, fit: FIT_DE, stage: STAGE_DE, plan: PLAN_DE, measures: MEASURES_DE,
  page: PAGE_DE, passes: PASSES_DE, timeline: TIMELINE_DE, close: CLOSE_DE, lesson: LESSON_DE, chart: CHART_DE, sheet: SHEET_DE, stand: STAND_DE, files: FILES_DE, stitch: STITCH_DE,
};

export type Language = 'en' | 'de';
export const WORDS: Readonly<Record<Language, Words>> = { en: ENGLISH, de: GERMAN };
