import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { serverProcess, tempFolder } from '#tests/support/server-rig';
import type { ServerProcess } from '#tests/support/server-rig';
import { afterQuiet } from './support/on-page';
import { launch } from './support/theatre';

/** Waits until the page says who leads; longer than the grace of a page that is gone. */
const leads = (page: Page, how: 'mine' | 'other' | 'free'): Promise<void> =>
  expect.poll(() => page.locator('[data-lease]').getAttribute('data-lease'), { timeout: 20_000 }).toBe(how);
const takes = (page: Page) => page.getByRole('button', { name: /^Take control/ });

describe('A6: who leads the bench, on the pages and the server as shipped', () => {
  let browser: Browser;
  let context: BrowserContext;
  let server: ServerProcess;
  const folder = tempFolder();

  beforeAll(async () => {
    [browser, server] = await Promise.all([launch(), serverProcess(['--port', '0', '--data', folder.path, '--scale', 'practice'])]);
  });
  afterAll(async () => {
    await browser.close();
    await server.end('SIGTERM');
    folder.remove();
  });
  beforeEach(async () => {
    context = await browser.newContext({ viewport: { width: 1280, height: 800 }, locale: 'en-GB' });
  });
  afterEach(() => context.close());

  const open = async (): Promise<Page> => {
    const page = await context.newPage();
    await page.goto(`http://127.0.0.1:${server.port}/bench`);
    await page.waitForSelector('[data-lease]');
    return page;
  };

  it('a page that is there is only ever taken over from by a hold', async () => {
    const first = await open();
    await leads(first, 'mine');
    const second = await open();
    await leads(second, 'other');
    await afterQuiet(second);
    await takes(second).click();
    // The tap was seen: the target says so, and nothing changed hands.
    await leads(second, 'other');
    await leads(first, 'mine');
    await takes(second).click({ delay: 2_300 });
    await leads(second, 'mine');
    await leads(first, 'other');
  });

  it('a page that was closed leaves it to the next page, without a press; to one that already watched, by a tap', async () => {
    const first = await open();
    // What the test before left is free when its grace is over.
    await leads(first, 'mine');
    const watching = await open();
    await leads(watching, 'other');
    await first.close();
    const next = await open();
    await leads(next, 'mine');
    await leads(watching, 'other');

    await next.close();
    await leads(watching, 'free');
    await afterQuiet(watching);
    await takes(watching).click();
    await leads(watching, 'mine');
  });
});
