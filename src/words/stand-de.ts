import type { STAND_EN } from './stand-en.ts';

export const STAND_DE: typeof STAND_EN = {};
