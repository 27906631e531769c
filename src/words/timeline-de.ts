import type { TIMELINE_EN } from './timeline-en.ts';

export const TIMELINE_DE: typeof TIMELINE_EN = {};
