import { describe, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import { started } from '#tests/support/batch';
import { warmBench } from './support/warm-bench';
import type { WarmVessel } from './support/warm-bench';

const vessel = (celsius: number, tau: number): WarmVessel => ({ celsius, tau, around: 21, lifted: false });
const OILS_TAU = 3_000;

interface Stated {
  readonly text: string;
  /** Seconds from the moment of the page's own statement, and when it was read, on this process's clock. */
  readonly low: number;
  readonly high: number;
  readonly at: number;
}

/** What the page says as its largest words, once they are of this kind. */
const states = async (page: Page, kind: string): Promise<Stated> => {
  const title = page.locator(`h1[data-meet="${kind}"]`);
  await title.waitFor({ timeout: 240_000 });
  const [text, low, high] = await title.evaluate((own) => [own.textContent ?? '', own.dataset['low'] ?? '', own.dataset['high'] ?? '']);
  return { text, low: low === '' ? Number.NaN : Number(low), high: high === '' ? Number.NaN : Number(high), at: performance.now() };
};
/** Resolves when the earliest moment that the page gives for the meeting, counted from now, has come nearer than `than` seconds. */
const sooner = (page: Page, than: number): Promise<unknown> =>
  page.waitForFunction(
    (given) => {
      const from = (globalThis as { sinceS?: number }).sinceS ?? performance.now() / 1000;
      Object.assign(globalThis, { sinceS: from });
      const low = document.querySelector('h1')?.dataset['low'];
      return low !== undefined && Number(low) + performance.now() / 1000 - from < given;
    },
    than,
    { timeout: 240_000 },
  );
const row = (page: Page, key: string) => page.locator(`[data-expected^="${key}"]`);

/** Real seconds in simulated vessels that cool fast: a forecast wants nearly three minutes of them. */
describe.concurrent('the temperatures of two vessels, on the page', () => {
  it('meet when the page said, and a probe lifted out is suspect', { timeout: 330_000 }, async () => {
    const bench = await warmBench(started().weighAll().makeLye(), { lye: vessel(64, 400), oils: vessel(44, OILS_TAU) });
    try {
      const { page, vessels } = bench;
      await row(page, 'lye').filter({ hasText: 'too early to say: 60 of 160 s' }).waitFor({ timeout: 90_000 });
      expect(await page.locator('h1').textContent()).toBe('Not enough yet');
      const stated = await states(page, 'in');
      expect(stated.text).toMatch(/^Meet (?:within \d+ min|in \d+–\d+ min)$/);
      expect(stated.high - stated.low).toBeLessThan(180);
      const { window, allowedApart } = bench.watcher.batch()?.plan.joining ?? { window: { low: 0, high: 0 }, allowedApart: 0 };
      const inside = (value: number): boolean => value * 1000 >= window.low && value * 1000 <= window.high;
      await bench.reads((lye, oils) => inside(lye) && inside(oils) && Math.abs(lye - oils) * 1000 <= allowedApart);
      const took = (performance.now() - stated.at) / 1000;
      expect(took).toBeGreaterThanOrEqual(stated.low - 1);
      expect(took).toBeLessThanOrEqual(stated.high + 1);
      vessels.oils.lifted = true;
      await row(page, 'oils').filter({ hasText: 'suspect' }).waitFor({ timeout: 90_000 });
      expect(await page.locator('h1').textContent()).toBe('A probe is suspect');
    } finally {
      await bench.close();
    }
  });

  it('are expected sooner once a bath stands under the lye, and the drop is marked', { timeout: 450_000 }, async () => {
    const bench = await warmBench(started().weighAll().makeLye(), { lye: vessel(66, 1_500), oils: vessel(44, OILS_TAU) });
    try {
      const { page, vessels } = bench;
      const before = await states(page, 'not-before');
      expect(before.text).toMatch(/^Not before \d+ min$/);
      expect(before.low).toBeGreaterThan(300);
      Object.assign(vessels.lye, { tau: 750, around: 12 });
      await sooner(page, before.low - 60);
      const mark = row(page, 'drop-lye');
      await mark.waitFor({ timeout: 240_000 });
      expect(await mark.textContent()).toMatch(/^Lye cooling faster\s*noticed \d\d:\d\d, began \d\d:\d\d$/);
      await bench.reads((lye) => lye <= 50);
      expect((performance.now() - before.at) / 1000).toBeLessThan(before.low);
    } finally {
      await bench.close();
    }
  });
});
