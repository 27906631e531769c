import { fileURLToPath } from 'node:url';
import { join } from 'node:path';
import { build, preview } from 'vite';

const ROOT = fileURLToPath(new URL('./picture', import.meta.url));

/** Builds the page with the picture alone into `scratch` and serves it; `close` ends that. */
export async function servePicture(scratch: string): Promise<{ readonly url: string; close(): Promise<void> }> {
  const outDir = join(scratch, 'picture');
  await build({ root: ROOT, base: './', logLevel: 'error', build: { outDir, emptyOutDir: true, target: 'es2022', chunkSizeWarningLimit: 2000 } });
  const server = await preview({ root: ROOT, logLevel: 'error', build: { outDir }, preview: { port: 0, host: '127.0.0.1', open: false } });
  const address = server.httpServer.address();
  if (address === null || typeof address === 'string') throw new Error('the preview server has no port');
  return { url: `http://127.0.0.1:${address.port}/`, close: () => server.close() };
}
