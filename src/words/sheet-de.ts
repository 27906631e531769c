import type { SHEET_EN } from './sheet-en.ts';

export const SHEET_DE: typeof SHEET_EN = {};
