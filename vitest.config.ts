import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    // Native modules (better-sqlite3, serialport) do not survive worker threads.
    pool: 'forks',
    include: ['tests/**/*.test.{ts,tsx}'],
    exclude: ['tests/browser/**', 'tests/benchmark/**', 'node_modules/**'],
    testTimeout: 20_000,
    // Waiting for an event on a busy machine: the limit is for what never comes.
    expect: { poll: { timeout: 10_000 } },
  },
});
