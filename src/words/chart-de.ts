import type { CHART_EN } from './chart-en.ts';

export const CHART_DE: typeof CHART_EN = {};
