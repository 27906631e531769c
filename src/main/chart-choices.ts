import { CELL_WIDTHS_MM } from '../panel/chart-bar.ts';
import type { ChartChoices } from '../panel/chart-bar.ts';
import type { Keeper } from './keep.ts';

const FIRST: ChartChoices = { part: 'heel', cut: 'beds', isTinted: true, isProgress: false, cellWidthMm: null };

/** Choices kept from an earlier visit; whatever is not understood falls back to the first ones. */
export function readChoices(text: string | null): ChartChoices {
  const kept = parse(text), flag = (value: unknown, otherwise: boolean): boolean => (typeof value === 'boolean' ? value : otherwise);
  return {
    part: (['sock', 'heel', 'toe'] as const).find((part) => part === kept['part']) ?? FIRST.part,
    cut: (['beds', 'seam'] as const).find((cut) => cut === kept['cut']) ?? FIRST.cut,
    isTinted: flag(kept['isTinted'], FIRST.isTinted), isProgress: flag(kept['isProgress'], FIRST.isProgress),
    cellWidthMm: CELL_WIDTHS_MM.find((mm) => mm === kept['cellWidthMm']) ?? FIRST.cellWidthMm,
  };
}

export function keepChoices(keeper: Keeper, choices: ChartChoices): void {
  keeper.write('chart', JSON.stringify(choices));
}

function parse(text: string | null): Readonly<Record<string, unknown>> {
  try {
    const value: unknown = JSON.parse(text ?? '{}');
    return typeof value === 'object' && value !== null ? { ...value } : {};
  } catch { return {}; }
}
