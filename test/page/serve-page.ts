import { join } from 'node:path';
import { build, preview } from 'vite';

export interface ServedPage {
  /** Address of the page, with a slash at its end. */
  readonly url: string;
  /** Where the built files lie. */
  readonly folder: string;
  close(): Promise<void>;
}

/** The page is served from a folder, not from the root: it has to work from anywhere. */
const FOLDER = 'some/folder';

/** Builds the page into a folder inside `scratch` and serves it on a free port of this machine. */
export async function servePage(root: string, scratch: string): Promise<ServedPage> {
  const site = join(scratch, 'site');
  const folder = join(site, FOLDER);
  await build({ root, logLevel: 'error', build: { outDir: folder, emptyOutDir: true } });
  const server = await preview({
    root, logLevel: 'error',
    build: { outDir: site },
    preview: { port: 0, host: '127.0.0.1', open: false },
  });
  const address = server.httpServer.address();
  if (address === null || typeof address === 'string') throw new Error('the preview server has no port');
  return { url: `http://127.0.0.1:${address.port}/${FOLDER}/`, folder, close: () => server.close() };
}
