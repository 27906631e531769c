import type { SheetChoices } from '../panel/sheet-choices.ts';

const FIRST: SheetChoices = { paper: null, language: null, hasTransfers: true, sizes: [] };

/** The choices of an earlier visit; whatever is not understood falls back to the first ones. */
export function readSheetChoices(kept: string | null): SheetChoices {
  let given: unknown = null;
  try { given = kept === null ? null : JSON.parse(kept); } catch { return FIRST; }
  if (typeof given !== 'object' || given === null) return FIRST;
  const { paper, language, hasTransfers, sizes } = given as Record<string, unknown>;
  return {
    paper: paper === 'a4' || paper === 'letter' ? paper : null,
    language: language === 'en' || language === 'de' ? language : null,
    hasTransfers: typeof hasTransfers === 'boolean' ? hasTransfers : FIRST.hasTransfers,
    sizes: Array.isArray(sizes) ? sizes.filter((name): name is string => typeof name === 'string') : [],
  };
}
