/**
 * Runs a benchmark as the product runs: bundled once, like the server, and by node alone. (A loader that compiles at import adds a call
 * to every function that is made, which the product does not have.) `tsx tests/benchmark/as-shipped.ts NAME [flags]`.
 */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { buildSync } from 'esbuild';
import { BUNDLED } from '../../server/bundling.mjs';

const ROOT = join(import.meta.dirname, '../..');
const [name = '', ...flags] = process.argv.slice(2);
const outfile = join(ROOT, 'dist', `bench-${name}.mjs`);
buildSync({
  ...BUNDLED,
  entryPoints: [join(ROOT, 'tests/benchmark', `${name}.ts`)],
  outfile,
});
const { status } = spawnSync(process.execPath, [outfile, ...flags], { stdio: 'inherit', env: { ...process.env, NODE_ENV: 'production' } });
process.exitCode = status ?? 1;
