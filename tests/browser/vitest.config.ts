import { defineConfig } from 'vitest/config';
import { longFirst } from '#tests/support/long-first';

/** Real Chromium on the production pages, built by `tests/run.sh` beforehand. Three files at a time: most of a file is waiting for simulated hands. */
export default defineConfig({
  test: {
    pool: 'forks',
    include: ['tests/browser/**/*.test.ts'],
    maxWorkers: 3,
    testTimeout: 60_000,
    hookTimeout: 60_000,
    sequence: { sequencer: longFirst('sheets', 'temperatures', 'paper', 'hands', 'formulas', 'remedy', 'handsfree') },
  },
});
