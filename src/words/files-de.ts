import type { FILES_EN } from './files-en.ts';

export const FILES_DE: typeof FILES_EN = {};
