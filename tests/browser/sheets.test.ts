import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import type { SceneName } from './support/fixtures';
import { afterQuiet, axe, badTargets, drawn, overflow } from './support/on-page';
import { launch, openBench, openTheatre, SIZES } from './support/theatre';
import type { Size, Theatre } from './support/theatre';

/** Ways to each sheet, in the names of the targets pressed. */
const SHEETS: readonly { readonly scene: SceneName; readonly targets: readonly string[] }[] = [
  { scene: 'pouring', targets: ['More'] },
  { scene: 'no-weight', targets: ['More', 'By hand'] },
  { scene: 'pouring', targets: ['More', 'This screen'] },
  { scene: 'ready', targets: ['More', 'Practice scene'] },
  { scene: 'hydroxide-pouring', targets: ['First aid'] },
  { scene: 'pouring', targets: ['More', 'Cross out'] },
  { scene: 'pouring', targets: ['More', 'Cross out', 'undone'] },
  { scene: 'pouring', targets: ['More', 'Park'] },
  { scene: 'pouring', targets: ['More', 'Stop the batch', 'spilt'] },
  { scene: 'moulds', targets: ['More', 'Close the batch'] },
  { scene: 'elsewhere', targets: ['More', 'This screen', 'Open this screen for weighing'] },
  { scene: 'idle', targets: ['Alder & oat'] },
];

describe.each(Object.keys(SIZES) as Size[])('sheets at %s', (size) => {
  let browser: Browser;
  let theatre: Theatre;
  let page: Page;
  let context: BrowserContext;

  beforeAll(async () => {
    [browser, theatre] = await Promise.all([launch(), openTheatre()]);
  });
  afterAll(async () => {
    await browser.close();
    await theatre.close();
  });

  it.each(SHEETS)('$scene, $targets: fits, reads and is reached', async ({ scene, targets }) => {
    await theatre.order({ do: 'play', scene });
    ({ page, context } = await openBench(browser, theatre, { size }));
    for (const name of targets) {
      await afterQuiet(page);
      await page.getByRole('button', { name: new RegExp(`^${name}`) }).click();
    }
    await drawn(page);
    expect(await overflow(page)).toEqual([0, 0]);
    expect(await badTargets(page)).toEqual([]);
    const hidden = await page.evaluate(() => {
      const dialog = document.querySelector('dialog');
      return dialog === null ? [0, 0] : [dialog.scrollHeight - dialog.clientHeight, dialog.scrollWidth - dialog.clientWidth];
    });
    expect(hidden).toEqual([0, 0]);
    expect(await axe(page)).toEqual([]);
    await context.close();
  });

  it('the temperatures by themselves: fit and read', async () => {
    await theatre.order({ do: 'play', scene: 'temperatures' });
    ({ page, context } = await openBench(browser, theatre, { size, path: '/bench/temperatures' }));
    await page.waitForSelector('.uplot canvas');
    await drawn(page);
    expect(await overflow(page)).toEqual([0, 0]);
    expect(await badTargets(page)).toEqual([]);
    expect(await axe(page)).toEqual([]);
    await context.close();
  });
});
