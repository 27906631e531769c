import { defineConfig } from 'vite';
import { listFiles } from './src/offline/list-files.ts';

export default defineConfig({
  // Relative, so that the built folder can be served from anywhere.
  base: './',
  // A missing file is a 404 here too, as on a plain static host, not the page once more.
  appType: 'mpa',
  worker: { format: 'es' },
  plugins: [listFiles()],
  build: {
    target: 'es2022',
    sourcemap: false,
    // What the page opens with, three included, stays near 1 MB of script (kB here); rooms are fetched as they are entered.
    chunkSizeWarningLimit: 1000,
  },
  server: { host: 'localhost' },
  preview: { host: 'localhost', port: 4173, strictPort: false },
});
