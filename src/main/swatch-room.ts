import { averageSwatches } from '../choose/average-swatches.ts';
import { createSwatchDialog } from '../panel/swatch-dialog.ts';
import type { SwatchDialog } from '../panel/swatch-dialog.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { withField } from '../plan/with-field.ts';

/** Kept in the file to so many decimals: a gauge is never known better. */
const GAUGE_DECIMALS = 3;

/** Swatches of the sock on the panel, and the gauge that they give it. */
export function createSwatchRoom(file: () => SockFile, propose: (file: SockFile) => void): SwatchDialog {
  return createSwatchDialog({
    average: averageSwatches,
    keep: (swatches, gauge) => {
      const kept = withField(file(), 'gauge.swatches', swatches.length === 0 ? undefined : swatches);
      if (gauge === null) { propose(kept); return; }
      const rounded = (value: number): number => Number(value.toFixed(GAUGE_DECIMALS));
      propose(withField(withField(kept, 'gauge.stitchesPer10cm', rounded(gauge.stitches.mean)), 'gauge.rowsPer10cm', rounded(gauge.rows.mean)));
    },
  });
}
