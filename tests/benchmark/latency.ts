/**
 * How long a weight takes from the tty to the screen, beside the least it can take: `npm run bench:latency`.
 *
 * Two pseudo-terminals are fed the same weights, half a period apart. One is read by the server as shipped and shown on its own bench page;
 * the other goes serialport → line parser → socket.io → textContent and nothing else. Both pages stand in one Chromium. Counted from the
 * moment the last byte of a frame is handed to the pty's feeder until the text stands in the document. Needs the exported pages.
 */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { parseArgs } from 'node:util';
import { chromium } from 'playwright-core';
import type { Page } from 'playwright-core';
import { encode, leadIn, still } from '#tests/support/encode-frames';
import { ptyPair } from '#tests/support/pty';
import type { Pty } from '#tests/support/pty';
import { serverProcess, tempFolder } from '#tests/support/server-rig';

const LIMITS = { p50: 1.3, p99: 2 };
/** Readings before the first that counts: pages, compilers and caches warm up. */
const WARM_UP = 30;
const SHAPE = 'header-comma';

const { values } = parseArgs({
  options: { seconds: { type: 'string', default: '40' }, chromium: { type: 'string', default: '/usr/bin/chromium' } },
});
const seconds = Number(values.seconds);

interface Watched {
  readonly page: Page;
  readonly pty: Pty;
  /** Page clock minus ours, ms. */
  readonly ahead: number;
}
type Seen = readonly (readonly [text: string, at: number])[];

const now = (): number => performance.timeOrigin + performance.now();

/** Notes every new text of the weight with the page's own clock. */
const watch = async (page: Page, selector: string): Promise<void> => {
  await page.waitForSelector(selector);
  await page.evaluate((where) => {
    const seen: [string, number][] = [];
    Object.assign(window, { seen });
    let last = '';
    new MutationObserver(() => {
      const text = document.querySelector(where)?.textContent ?? '';
      if (text === last) return;
      last = text;
      seen.push([text, performance.timeOrigin + performance.now()]);
    }).observe(document.body, { subtree: true, childList: true, characterData: true, attributes: true });
  }, selector);
};

/** How far the page's clock is ahead of ours: the quickest of many exchanges bounds the error by half its time. */
const clockAhead = async (page: Page): Promise<number> => {
  let best = { took: Infinity, ahead: 0 };
  for (let i = 0; i < 200; i += 1) {
    const before = now();
    const there = await page.evaluate(() => performance.timeOrigin + performance.now());
    const after = now();
    if (after - before < best.took) best = { took: after - before, ahead: there - (before + after) / 2 };
  }
  return best.ahead;
};

/** Feeds one pty at a rate; every frame another weight, from 100.0 g upwards. Returns when each was sent. */
const feed = async (pty: Pty, perSecond: number, count: number, delay: number): Promise<ReadonlyMap<string, number>> => {
  const sent = new Map<string, number>();
  const start = performance.now() + delay;
  for (let i = 0; i < count; i += 1) {
    const due = start + (i * 1000) / perSecond;
    await new Promise((resolve) => setTimeout(resolve, Math.max(0, due - performance.now())));
    const frame = encode(SHAPE, still(1_000 + i, 1));
    sent.set(((1_000 + i) / 10).toFixed(1), now());
    void pty.write(frame);
  }
  return sent;
};

const delays = (sent: ReadonlyMap<string, number>, seen: Seen, ahead: number): readonly number[] => {
  const shownAt = new Map<string, number>();
  for (const [text, at] of seen) {
    const weight = Number(/\d+(\.\d+)?/.exec(text.replaceAll(',', '.'))?.[0] ?? Number.NaN).toFixed(1);
    if (!shownAt.has(weight)) shownAt.set(weight, at - ahead);
  }
  return [...sent].slice(WARM_UP).map(([weight, at]) => (shownAt.get(weight) ?? Infinity) - at);
};

const percentile = (times: readonly number[], share: number): number =>
  times.toSorted((a, b) => a - b)[Math.floor((times.length - 1) * share)] ?? Number.NaN;

const seenBy = (page: Page): Promise<Seen> => page.evaluate(() => (window as unknown as { seen: [string, number][] }).seen);

const missing = (list: readonly number[]): number => list.filter((ms) => ms === Infinity).length;

const run = async (ours: Watched, bare: Watched, perSecond: number): Promise<boolean> => {
  const count = WARM_UP + seconds * perSecond;
  for (const { page } of [ours, bare]) await page.evaluate(() => ((window as unknown as { seen: unknown[] }).seen.length = 0));
  const [sentOurs, sentBare] = await Promise.all([
    feed(ours.pty, perSecond, count, 500),
    feed(bare.pty, perSecond, count, 500 + 500 / perSecond),
  ]);
  await new Promise((resolve) => setTimeout(resolve, 1_000));
  const times = {
    ours: delays(sentOurs, await seenBy(ours.page), ours.ahead),
    bare: delays(sentBare, await seenBy(bare.page), bare.ahead),
  };
  let good = true;
  for (const [name, share] of [
    ['p50', 0.5],
    ['p99', 0.99],
  ] as const) {
    const [mine, least] = [percentile(times.ours, share), percentile(times.bare, share)];
    const ratio = mine / least;
    good &&= ratio <= LIMITS[name];
    console.log(
      `${perSecond}/s ${name}: ours ${mine.toFixed(2)} ms, bare ${least.toFixed(2)} ms, ratio ${ratio.toFixed(2)} (at most ${LIMITS[name]})`,
    );
  }
  console.log(`${perSecond}/s: ${times.ours.length} weights each; not shown: ours ${missing(times.ours)}, bare ${missing(times.bare)}`);
  return good;
};

const folder = tempFolder();
const [ptyOurs, ptyBare] = [await ptyPair(), await ptyPair()];
const server = await serverProcess(['--port', '0', '--data', folder.path, '--scale', `${ptyOurs.path},${SHAPE}`]);
const bareProcess = spawn(process.execPath, ['--import', 'tsx', 'tests/benchmark/bare-pipe.ts', ptyBare.path], {
  stdio: ['ignore', 'pipe', 'inherit'],
});
const [said] = (await once(bareProcess.stdout, 'data')) as [Buffer];
const browser = await chromium.launch({
  executablePath: values.chromium,
  args: [
    '--no-sandbox',
    '--disable-background-timer-throttling',
    '--disable-renderer-backgrounding',
    '--disable-backgrounding-occluded-windows',
  ],
});
try {
  const open = async (pty: Pty, address: string, selector: string): Promise<Watched> => {
    const page = await (await browser.newContext({ viewport: { width: 1280, height: 800 }, locale: 'en-GB' })).newPage();
    await page.goto(address);
    await watch(page, selector);
    return { page, pty, ahead: await clockAhead(page) };
  };
  await ptyOurs.write(leadIn(SHAPE, still(0, 1)));
  const idle = setInterval(() => void ptyOurs.write(encode(SHAPE, still(0, 1))), 100);
  const ours = await open(ptyOurs, `http://127.0.0.1:${server.port}/bench`, '[data-figure] [aria-hidden]');
  const bare = await open(ptyBare, `http://127.0.0.1:${Number(said.toString())}/`, '#weight');
  clearInterval(idle);
  const results = [await run(ours, bare, 10), await run(ours, bare, 20)];
  process.exitCode = results.every(Boolean) ? 0 : 1;
} finally {
  await browser.close();
  bareProcess.kill();
  await server.end('SIGTERM');
  await ptyOurs.close();
  await ptyBare.close();
  folder.remove();
}
