import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface ScratchFolder {
  readonly path: string;
  remove(): void;
}

/** A folder of one's own, removed when asked or, in an interrupted run, when the process ends. */
export function createScratchFolder(): ScratchFolder {
  const path = mkdtempSync(join(tmpdir(), 'heelwright-'));
  const remove = (): void => {
    process.off('exit', remove);
    rmSync(path, { recursive: true, force: true, maxRetries: 5 });
  };
  process.once('exit', remove);
  return { path, remove };
}
