import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, CDPSession, Page } from 'playwright-core';
import { launch, openBench, openTheatre } from './support/theatre';
import type { Theatre } from './support/theatre';

/** The gate plays two hours; `NIGHT_HOURS=8` plays the night. Ten frames a second, as a scale sends them. */
const HOURS = Number(process.env['NIGHT_HOURS'] ?? 2);
const FRAMES = HOURS * 3_600 * 10;
const SETTLED = 8_000;
const HANDFUL = 100;
/** Of some 6 MB: eight bytes kept of every frame would fail it in two hours. */
const GROWTH = 0.1;

describe('B17: a page left open overnight', () => {
  let browser: Browser;
  let theatre: Theatre;
  let page: Page;
  let cdp: CDPSession;

  beforeAll(async () => {
    [browser, theatre] = await Promise.all([launch(), openTheatre()]);
    await theatre.order({ do: 'play', scene: 'pouring' });
    ({ page } = await openBench(browser, theatre));
    cdp = await page.context().newCDPSession(page);
  });
  afterAll(async () => {
    await browser.close();
    await theatre.close();
  });

  /** Bytes alive after everything that can be collected was. */
  const heap = async (): Promise<number> => {
    await cdp.send('HeapProfiler.collectGarbage');
    return (await cdp.send('Runtime.getHeapUsage')).usedSize;
  };

  /** Sends frames, a handful at a time: a page that falls behind would rightly take them for the past and draw none. */
  const frames = async (count: number): Promise<void> => {
    for (let sent = 0; sent < count; sent += HANDFUL) {
      const last = 100 * (1 + ((sent / HANDFUL) % 3_000));
      await theatre.order({ do: 'rush', count: HANDFUL, last });
      const shown = (last / 1000).toFixed(1);
      await page.waitForFunction((wanted) => document.querySelector('[data-total]')?.textContent?.trim() === wanted, shown);
    }
  };

  it('holds no more in the morning than in the evening, with every frame drawn', { timeout: HOURS * 120_000 }, async () => {
    await frames(SETTLED);
    const evening = await heap();
    await page.evaluate(() => {
      const seen = globalThis as unknown as { drawn: number };
      seen.drawn = 0;
      new MutationObserver((changes) => {
        // The number's digits with each frame; other texts once for all that came before they were written.
        if (changes.some(({ target }) => target.parentElement?.matches('[data-figure] [data-slot]') === true)) seen.drawn += 1;
      }).observe(document.body, { characterData: true, subtree: true });
    });
    await frames(FRAMES);
    const drawn = await page.evaluate(() => (globalThis as unknown as { drawn: number }).drawn);
    const morning = await heap();
    expect(drawn).toBeGreaterThan(0.9 * FRAMES);
    expect(morning / evening - 1).toBeLessThan(GROWTH);
  });
});
