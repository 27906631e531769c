import type { LESSON_EN } from './lesson-en.ts';

export const LESSON_DE: typeof LESSON_EN = {};
