import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'node',
          include: ['test/**/*.test.ts'],
          exclude: ['test/page/**'],
          pool: 'threads',
          sequence: { groupOrder: 0 },
          // Against a hang only: a busy machine is no failure.
          testTimeout: 60_000,
        },
      },
      {
        test: {
          name: 'page',
          include: ['test/page/**/*.test.ts'],
          globalSetup: ['test/page/global-setup.ts'],
          // One browser at a time, after everything else: the software renderer takes every core it gets.
          fileParallelism: false,
          sequence: { groupOrder: 1 },
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
