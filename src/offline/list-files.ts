import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Plugin } from 'vite';

/** Lies in `public` for the README's sake; the page never asks for it. */
const NOT_ASKED_FOR = ['sock.png', 'yarn.jpg'];

const checksum = (content: string | Uint8Array): string => `sha256-${createHash('sha256').update(content).digest('base64')}`;

/** The service worker's text for a build: its version is that of all its files together. */
export function writeServiceWorker(files: ReadonlyMap<string, string | Uint8Array>): string {
  const listed = [...files].map(([path, content]) => [path, checksum(content)] as const).sort(([a], [b]) => (a < b ? -1 : 1));
  const body = readFileSync(fileURLToPath(new URL('./service-worker.js', import.meta.url)), 'utf8');
  const version = checksum(JSON.stringify(listed) + body);
  return `const VERSION = ${JSON.stringify(version)};\nconst FILES = ${JSON.stringify(listed, null, 1)};\n${body}`;
}

/** Writes `sw.js` beside the built page: with it, all of the page is there again without a network. */
export function listFiles(): Plugin {
  let publicDir = '';
  return {
    name: 'heelwright-list-files',
    apply: 'build',
    enforce: 'post',
    configResolved: (config) => { ({ publicDir } = config); },
    // Of what lies in the folder: other plugins may change a chunk as late as the build lets them.
    writeBundle({ dir }, bundle) {
      if (dir === undefined) throw new Error('list-files: the build writes into no folder');
      const files = new Map<string, string | Uint8Array>(Object.keys(bundle).map((path) => [path, readFileSync(join(dir, path))]));
      for (const entry of readdirSync(publicDir, { recursive: true, withFileTypes: true })) {
        const path = join(entry.parentPath, entry.name), name = path.slice(publicDir.length + 1).replaceAll('\\', '/');
        if (entry.isFile() && !NOT_ASKED_FOR.includes(name)) files.set(name, readFileSync(path));
      }
      writeFileSync(join(dir, 'sw.js'), writeServiceWorker(files));
    },
  };
}
