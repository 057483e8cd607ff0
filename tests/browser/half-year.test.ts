import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import type { BarsList } from '#lib/protocol/bars';
import type { BatchList } from '#lib/protocol/http';
import type { ShelfList } from '#lib/protocol/shelf';
import { serverProcess, tempFolder } from '#tests/support/server-rig';
import type { ServerProcess } from '#tests/support/server-rig';
import { drawn } from './support/on-page';
import { isSound } from './support/on-paper';
import { launch, SIZES } from './support/theatre';

/** Pages of what comes after the pour, as a first start of the practice workshop shows them. */
const folder = tempFolder();
let server: ServerProcess;
let browser: Browser;
let page: Page;
beforeAll(async () => {
  [server, browser] = await Promise.all([serverProcess(['--port', '0', '--data', folder.path], {}, { past: true }), launch()]);
  page = await browser.newPage({ viewport: SIZES.wide, locale: 'en-GB' });
});
afterAll(async () => {
  await browser?.close();
  if (server?.child.exitCode === null) await server.end('SIGTERM');
  folder.remove();
});

const at = (path: string): string => `http://localhost:${server.port}${path}`;
const ask = async <T>(path: string): Promise<T> => (await fetch(at(path))).json() as Promise<T>;

describe('the invented half-year', () => {
  it('has pages that are sound to see and to hear', async () => {
    const { bars } = await ask<BarsList>('/api/bars?limit=200');
    const { batches } = await ask<BatchList>('/api/batches');
    const { items } = await ask<ShelfList>('/api/shelf/lot');
    const ready = bars.find(({ label, counts }) => label !== null && counts.shelf > 2);
    const [lot, batch, bought] = [ready?.id, batches[0]?.id, items[0]?.id].map((id) => encodeURIComponent(id ?? ''));
    // Each with what stands on it once all it asked for is there.
    const pages: readonly (readonly [string, string])[] = [
      ['/bars', 'What is where'],
      [`/bars/lot?id=${lot}`, 'Next worth weighing'],
      [`/bars/net?id=${lot}`, 'What it could say'],
      [`/bars/label?id=${lot}`, 'From what was weighed into their own mould.'],
      ['/bars/orders', 'Calendar to subscribe to'],
      [`/stores/follow?lot=${bought}`, 'Where it went'],
      [`/stores/recall?lot=${bought}`, 'What it touched'],
      ['/stores/complaints', 'Nobody has complained.'],
      ['/batches/pouring?formula=slate', 'From batch to batch'],
      [`/batches/review?id=${batch}`, 'Moulds'],
    ];
    for (const [path, shown] of pages) {
      await page.goto(at(path));
      await page.getByText(shown).first().waitFor();
      await page.setViewportSize(SIZES.wide);
      await isSound(page);
      await page.setViewportSize(SIZES.phone);
      await drawn(page);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), path).toBe(0);
    }
  }, 300_000);
});
