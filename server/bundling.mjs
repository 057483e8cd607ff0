// How the server is bundled: for `npm start`, and for tests and benchmarks that run it as it is shipped. Plain JavaScript: it must run
// before anything was built.

/** The server, and the solver's thread that it looks for beside itself under this name. Paths from the checkout. */
export const SERVER_PARTS = { server: 'server/main.ts', 'remedy-worker': 'server/remedy/worker.ts' };

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
