import { defineConfig } from 'vitest/config';

/** Real Chromium on the production pages: run after `npm run build`. One file at a time, since each drives a browser and its own server. */
export default defineConfig({
  test: {
    pool: 'forks',
    include: ['tests/browser/**/*.test.ts'],
    fileParallelism: false,
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
