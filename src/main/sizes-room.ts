import { writeSizesCsv } from '../choose/write-sizes.ts';
import { STANDARD_SIZES } from '../foot/standard-sizes.ts';
import { createSizesDialog } from '../panel/sizes-dialog.ts';
import type { SizesDialog } from '../panel/sizes-dialog.ts';
import type { KnittedSock } from '../pipeline/result.ts';
import type { SockFile } from '../plan/sock-file.ts';
import { drawFlatOutline } from '../sheet/flat-outline.ts';
import { client } from '../worker/client.ts';
import type { WorkClient } from '../worker/client.ts';
import { openWorker } from '../worker/open-worker.ts';
import { fileName } from './save-file.ts';

/** The table of sizes, with a worker that lives as long as the dialog is open. */
export function createSizesRoom(sock: () => SockFile | null, openSock: (file: SockFile) => void): SizesDialog {
  let work: WorkClient | null = null;
  const worker = (): WorkClient => work ??= client(openWorker);
  return createSizesDialog({
    standardSizes: STANDARD_SIZES.map((size) => ({ ...size, legLengthMm: null })), sock, openSock, fileName, writeCsv: writeSizesCsv,
    grade: (file, sizes) => worker().grade(file, sizes),
    outline: async (file) => {
      let knitted: KnittedSock | null = null;
      const outcome = await worker().make(file, 'flat', { onKnitted: (sock) => { knitted = sock; } });
      return outcome.status !== 'posed' || knitted === null ? null : drawFlatOutline((knitted as KnittedSock).fabric, outcome.posed.pose.positions);
    },
    stop: () => {
      work?.dispose();
      work = null;
    },
  });
}
