/**
 * How long a maker waits before weighing: `npm run startup`. In a fresh clone of what is committed, `npm ci` has just ended; then `npm
 * start`, pages built and all, until a weight that the practice bench's scale sends now stands on the bench page in Chromium. Then it
 * is ended and started again. The browser is open beforehand, as a maker's is. Ends with 1 when a limit is missed.
 *
 * `--modules DIR` takes the packages of another checkout instead of `npm ci`: quicker, for trying.
 */
import { execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import type { Browser } from 'playwright-core';
import { launch } from '#tests/browser/support/theatre';

const ROOT = join(import.meta.dirname, '../..');
/** Seconds. */
const LIMITS = { first: 45, second: 5 };
const GIVE_UP_MS = 300_000;

const { values } = parseArgs({ options: { modules: { type: 'string' } } });

const seconds = (ms: number): string => `${(ms / 1000).toFixed(1)} s`;

/** Starts, waits for the weight, ends; milliseconds until the server spoke and until the weight stood there. */
const start = async (folder: string, data: string, browser: Browser): Promise<{ readonly spoke: number; readonly shown: number }> => {
  const from = performance.now();
  const child = spawn('npm', ['start', '--', '--port', '0', '--data', data], { cwd: folder, stdio: ['ignore', 'pipe', 'inherit'] });
  const gone = once(child, 'exit');
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 }, locale: 'en-GB' });
  try {
    const port = await portOf(child.stdout, gone);
    const spoke = performance.now() - from;
    await page.goto(`http://127.0.0.1:${port}/bench`);
    await page.waitForFunction(() => /\d/.test(document.querySelector('[data-figure]')?.textContent ?? ''), undefined, {
      timeout: GIVE_UP_MS,
      polling: 50,
    });
    return { spoke, shown: performance.now() - from };
  } finally {
    await page.close();
    child.kill('SIGTERM');
    await gone;
  }
};

const portOf = (out: NodeJS.ReadableStream, gone: Promise<unknown>): Promise<number> =>
  new Promise((resolve, reject) => {
    let said = '';
    out.on('data', (chunk: Buffer) => {
      said += chunk.toString();
      const found = /runs at http:\/\/localhost:(\d+)/.exec(said);
      if (found !== null) resolve(Number(found[1]));
    });
    void gone.then(() => reject(new Error(`it ended before it ran: ${said}`)));
  });

const work = mkdtempSync(join(tmpdir(), 'startup-'));
const folder = join(work, 'potwatch');
execFileSync('git', ['clone', '-q', ROOT, folder]);
if (values.modules === undefined)
  execFileSync('npm', ['ci', '--no-audit', '--no-fund'], { cwd: folder, stdio: ['ignore', 'ignore', 'inherit'] });
else execFileSync('cp', ['-al', join(values.modules, 'node_modules'), folder]);
const browser = await launch();
try {
  console.log(`${cpus().length} cores, Node ${process.versions.node}`);
  let met = true;
  for (const which of ['first', 'second'] as const) {
    const { spoke, shown } = await start(folder, join(work, 'data'), browser);
    const held = shown < LIMITS[which] * 1000;
    met &&= held;
    console.log(
      `${which} start: the server after ${seconds(spoke)}, a live weight on the page after ${seconds(shown)} ` +
        `(under ${LIMITS[which]} s: ${held ? 'met' : 'MISSED'})`,
    );
  }
  process.exitCode = met ? 0 : 1;
} finally {
  await browser.close();
  rmSync(work, { recursive: true, force: true });
}
