import { defineConfig } from 'vitest/config';
import { longFirst } from '#tests/support/long-first';

/** Real Chromium on the production pages, built by `tests/run.sh` beforehand. Three files at a time: most of a file is waiting for simulated hands. */
export default defineConfig({
  test: {
    pool: 'forks',
    include: ['tests/browser/**/*.test.ts'],
    maxWorkers: 3,
    // Waiting for an event on a busy machine: the limits are for what never comes.
    testTimeout: 120_000,
    hookTimeout: 120_000,
    expect: { poll: { timeout: 15_000 } },
    sequence: { sequencer: longFirst('sheets', 'temperatures', 'paper', 'hands', 'formulas', 'remedy', 'handsfree') },
  },
});
