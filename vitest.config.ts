import { defineConfig } from 'vitest/config';
import { longFirst } from '#tests/support/long-first';

export default defineConfig({
  test: {
    // Native modules (better-sqlite3, serialport) do not survive worker threads.
    pool: 'forks',
    // On two cores it would be one: the longest file mostly waits for scales to settle.
    maxWorkers: 2,
    include: ['tests/**/*.test.{ts,tsx}'],
    exclude: ['tests/browser/**', 'tests/benchmark/**', 'node_modules/**'],
    // Waiting for an event on a busy machine: the limits are for what never comes.
    testTimeout: 60_000,
    hookTimeout: 60_000,
    expect: { poll: { timeout: 15_000 } },
    sequence: { sequencer: longFirst('endure/endure', 'model/model', 'property/formula', 'ports/field-failures', 'device/device') },
  },
});
