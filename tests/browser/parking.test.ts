import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import { serverProcess, tempFolder } from '#tests/support/server-rig';
import type { ServerProcess } from '#tests/support/server-rig';
import { afterQuiet } from './support/on-page';
import { HELD_MS } from './support/pedal';
import { launch } from './support/theatre';

/** Cards to choose at most before a batch begins: its plan, a lot for each line, and the start. */
const MOST_CARDS = 20;

describe('a batch parked and taken up again, on the practice bench as shipped', () => {
  let browser: Browser;
  let page: Page;
  let server: ServerProcess;
  const folder = tempFolder();

  beforeAll(async () => {
    [browser, server] = await Promise.all([launch(), serverProcess(['--port', '0', '--data', folder.path, '--scale', 'practice'])]);
    page = await browser.newPage({ viewport: { width: 1280, height: 800 }, locale: 'en-GB' });
    await page.goto(`http://127.0.0.1:${server.port}/bench`);
    await page.waitForSelector('main[data-phase="idle"] [data-card^="plan"]:not([aria-disabled])');
  });
  afterAll(async () => {
    await browser.close();
    await server.end('SIGTERM');
    folder.remove();
  });

  const target = (name: string) => page.getByRole('button', { name: new RegExp(`^${name}`) });
  const cardNow = (): Promise<string | null> => page.locator('[data-card]').first().getAttribute('data-card');
  const start = async (): Promise<void> => {
    for (let chosen = 0; chosen < MOST_CARDS; chosen += 1) {
      const card = await cardNow();
      await afterQuiet(page);
      await page.locator('[data-card]').first().click();
      if (card === 'start') return;
      await expect.poll(cardNow).not.toBe(card);
    }
    throw new Error('the batch never began');
  };

  it('is kept, with the reason a person gave, and goes on from the empty bench', async () => {
    await start();
    await page.waitForSelector('main:not([data-phase="idle"])');
    for (const name of ['More', 'Park', 'time is up']) {
      await afterQuiet(page);
      await target(name).click();
    }
    await afterQuiet(page);
    await page.getByRole('dialog').getByRole('button', { name: /^Park/ }).click({ delay: HELD_MS });
    await page.waitForSelector('main[data-phase="idle"] [data-card^="parked"]');

    await afterQuiet(page);
    await page.locator('[data-card^="parked"]').click();
    await page.waitForSelector('main:not([data-phase="idle"])');
    expect(await page.locator('[data-notice]').count()).toBe(0);
  }, 300_000);
});
