// How the server is bundled: for `npm start`, and for tests and benchmarks that run it as it is shipped. Plain JavaScript: it must run
// before anything was built.

/** The server, and beside it under these names the solver's thread and the programs that copy and check a record. Paths from the checkout. */
export const SERVER_PARTS = {
  server: 'server/main.ts',
  'remedy-worker': 'server/remedy/worker.ts',
  backup: 'server/backup/program.ts',
  check: 'server/store/check-program.ts',
};

/** @satisfies {import('esbuild').BuildOptions} */
export const BUNDLED = /** @type {const} */ ({
  bundle: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  packages: 'external',
  outExtension: { '.js': '.mjs' },
  logLevel: 'warning',
});
