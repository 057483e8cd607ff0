// Builds what has changed since the last start, then runs the server in this same process, so that a signal to `npm start` is
// a signal to the server. Plain JavaScript: it must run before anything was built.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { BUNDLED, SERVER_PARTS } from './bundling.mjs';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const require = createRequire(import.meta.url);
const bundle = join(root, 'dist', 'server.mjs');
const stampFile = join(root, 'dist', 'built-from');

/** @param {string} folder @param {import('node:crypto').Hash} hash */
const addFolder = (folder, hash) => {
  for (const entry of readdirSync(folder, { withFileTypes: true }).toSorted((a, b) => (a.name < b.name ? -1 : 1))) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) addFolder(path, hash);
    else hash.update(path.slice(root.length)).update('\0').update(readFileSync(path)).update('\0');
  }
};

/** One hash over every file that the build reads: a start after an update rebuilds, a second start does not. */
const builtFrom = () => {
  const hash = createHash('sha256');
  for (const folder of ['app', 'lib', 'server', 'hardware']) addFolder(join(root, folder), hash);
  for (const file of ['package.json', 'package-lock.json', 'next.config.ts', 'tsconfig.json']) {
    const path = join(root, file);
    if (existsSync(path)) hash.update(file).update(readFileSync(path));
  }
  return hash.digest('hex');
};

/**
 * @template T @param {() => T | Promise<T>} load
 * @returns {Promise<T>} What a package gives; where it is not there the person is told, instead of being shown a stack.
 */
const installed = async (load) => {
  try {
    return await load();
  } catch (error) {
    const { code, message } = /** @type {NodeJS.ErrnoException} */ (error);
    if (code !== 'ERR_MODULE_NOT_FOUND' && code !== 'MODULE_NOT_FOUND') throw error;
    console.error(
      `potwatch: ${message.split('\n')[0]}. Run "npm ci", and again after each update; nothing was started and no batch was touched.`,
    );
    return process.exit(1);
  }
};

const build = async () => {
  const { buildSync } = await installed(() => import('esbuild'));
  const nextBin = await installed(() => require.resolve('next/dist/bin/next'));
  console.error('potwatch: building the pages, once after each update (about 20 s) …');
  const env = Object.assign({}, process.env, { NODE_ENV: /** @type {const} */ ('production'), NEXT_TELEMETRY_DISABLED: '1' });
  const next = spawnSync(process.execPath, [nextBin, 'build'], { cwd: root, env, encoding: 'utf8' });
  if (next.status !== 0) {
    console.error(next.stdout, next.stderr);
    console.error('potwatch: the pages could not be built; nothing was started and no batch was touched.');
    process.exit(1);
  }
  mkdirSync(dirname(bundle), { recursive: true });
  buildSync({
    ...BUNDLED,
    absWorkingDir: root,
    entryPoints: SERVER_PARTS,
    outdir: dirname(bundle),
    sourcemap: true,
  });
};

const now = builtFrom();
const before = existsSync(stampFile) && existsSync(bundle) && statSync(bundle).size > 0 ? readFileSync(stampFile, 'utf8') : '';
if (now !== before || !existsSync(join(root, 'out', 'index.html'))) {
  await build();
  writeFileSync(stampFile, now);
}
if (!process.argv.includes('--build-only')) {
  Object.assign(process.env, { NODE_ENV: 'production' });
  const { run } = await installed(() => import(pathToFileURL(bundle).href));
  await run(process.argv.slice(2));
}
