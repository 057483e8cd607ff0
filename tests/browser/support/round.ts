import type { Locator, Page } from 'playwright-core';
import { ANSWERED_MS, hears } from './on-page';

/** What never comes in so long does not come. */
const LONGEST_MS = 120_000;

/**
 * A round of bars on the bench that the page is at: chosen, so many put on and lifted by the practice hands, all weighed. What has just come
 * under a finger takes no press, what was filled before may stand on the scale still, and after a silence the pan is to be
 * seen free again: each press is made by what the bench shows, until it shows what should come of it.
 * @throws Error with what the bench shows instead.
 */
export const weighRound = async (page: Page, which: RegExp, bars: number): Promise<void> => {
  const main = page.locator('main');
  const help = page.locator('[data-help]');
  const until = async (wanted: string, presses: Readonly<Record<string, Locator>>): Promise<void> => {
    const from = performance.now();
    for (;;) {
      const phase = (await main.getAttribute('data-phase')) ?? '';
      if (phase === wanted || phase === 'bars-done') return;
      if (performance.now() - from > LONGEST_MS) throw new Error(`never ${wanted}, but ${phase}: ${await main.innerText()}`);
      await hears(page);
      await presses[phase]?.click({ timeout: ANSWERED_MS }).catch(() => undefined);
      await page.waitForSelector(`main[data-phase="${wanted}"]`, { timeout: ANSWERED_MS }).catch(() => undefined);
    }
  };
  await until('bars-put-on', { 'bars-none': page.getByRole('button', { name: which }), 'bars-empty': help });
  for (let bar = 1; bar <= bars; bar += 1) {
    await until('bars-taken', { 'bars-put-on': help, 'bars-empty': help });
    await until(bar === bars ? 'bars-done' : 'bars-put-on', { 'bars-taken': help, 'bars-empty': help });
  }
};
