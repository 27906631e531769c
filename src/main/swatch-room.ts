import { averageSwatches, findShrinkage, readSpread } from '../choose/average-swatches.ts';
import type { PageState } from '../panel/page-state.ts';
import { createSwatchDialog } from '../panel/swatch-dialog.ts';
import type { SwatchDialog } from '../panel/swatch-dialog.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { withField } from '../plan/with-field.ts';

/** Kept in the file to so many decimals: a gauge is never known better. */
const GAUGE_DECIMALS = 3;

/** Swatches of the sock on the panel, and the gauge that they give it. */
export function createSwatchRoom(state: () => PageState, propose: (file: SockFile) => void): SwatchDialog {
  return createSwatchDialog({
    average: (swatches) => {
      const average = averageSwatches(swatches, 'washed') ?? averageSwatches(swatches, 'unwashed'), plan = state().planned?.plan;
      return average === null ? null : { average, shrinkage: findShrinkage(swatches), spread: plan === undefined ? null : readSpread(plan, average) };
    },
    keep: (swatches, gauge) => {
      const kept = withField(state().file, 'gauge.swatches', swatches.length === 0 ? undefined : swatches);
      if (gauge === null) { propose(kept); return; }
      const rounded = (value: number): number => Number(value.toFixed(GAUGE_DECIMALS)), { stitchesPer10cm, rowsPer10cm } = gauge;
      propose(withField(withField(kept, 'gauge.stitchesPer10cm', rounded(stitchesPer10cm.mean)), 'gauge.rowsPer10cm', rounded(rowsPer10cm.mean)));
    },
  });
}
