import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import { afterQuiet } from './support/on-page';
import { launch, openTheatre, PLAIN_NAME, SIZES } from './support/theatre';
import type { Theatre } from './support/theatre';

const HOURS = 3;
const STEP_S = 600;
/** Of the alarm, as a person hears it. */
const RING_EVERY_S = 1.6;

interface Rung {
  readonly rings: number;
  readonly unheard: number;
}

/**
 * Three hours of the page's own clock on plain http, with the bench gone in the middle of a batch: the worst a tablet may be left alone with.
 * The clock of the page is turned by the test; the audio context is the browser's own and runs for as long as the test truly takes, so that a
 * system that stops it after an hour is not seen here.
 */
describe('A12: a tablet left alone for three hours on plain http', () => {
  let browser: Browser;
  let theatre: Theatre;
  let page: Page;
  const errors: string[] = [];

  beforeAll(async () => {
    [browser, theatre] = await Promise.all([launch(), openTheatre()]);
    await theatre.order({ do: 'play', scene: 'pouring' });
    const context = await browser.newContext({ viewport: SIZES.small, locale: 'en-GB', hasTouch: true });
    page = await context.newPage();
    page.on('pageerror', ({ message }) => errors.push(message));
    await page.clock.install();
    // Every note of an alarm that is played, and whether the context then ran.
    await page.addInitScript(() => {
      const played = { rings: 0, unheard: 0 };
      Object.assign(globalThis, { played });
      const Own = OscillatorNode;
      globalThis.OscillatorNode = class extends Own {
        override start(when?: number): void {
          if (when !== undefined && this.type === 'square') {
            played.rings += 1 / 3;
            if (this.context.state !== 'running') played.unheard += 1;
          }
          super.start(when);
        }
      };
    });
    await page.goto(theatre.url('/bench', PLAIN_NAME));
    await page.waitForSelector('main[data-phase="pouring"]');
  });
  afterAll(async () => {
    theatre.process.kill('SIGCONT');
    await browser.close();
    await theatre.close();
  });

  const played = (): Promise<Rung> => page.evaluate(() => (globalThis as unknown as { played: Rung }).played);
  const shown = (): Promise<unknown> =>
    page.evaluate(() => ({
      awake: document.querySelector('[data-awake]')?.textContent,
      sound: document.querySelector('[data-sound]')?.getAttribute('data-sound'),
      audio: document.querySelector('[data-audio]')?.getAttribute('data-audio'),
      alarm: document.querySelector('[data-alarm]')?.getAttribute('data-alarm'),
      none: document.querySelector('[data-none]')?.getAttribute('data-none'),
    }));

  it('rings all the while, never claims to stay on, shows no weight, and is back when the bench is', { timeout: 220_000 }, async () => {
    await afterQuiet(page);
    await page.getByRole('button', { name: /^Sound/ }).tap();
    await page.waitForSelector('[data-sound="armed"][data-audio="running"]');
    theatre.process.kill('SIGSTOP');
    await page.clock.runFor(10_000);
    for (let gone = 0; gone < HOURS * 3_600; gone += STEP_S) {
      const before = await played();
      await page.clock.runFor(STEP_S * 1_000);
      const after = await played();
      expect(Math.round(after.rings - before.rings), `after ${gone} s`).toBeGreaterThanOrEqual(Math.floor(STEP_S / RING_EVERY_S) - 1);
      expect(after.unheard).toBe(0);
      expect(await shown()).toEqual({
        awake: 'may go dark: plain http',
        sound: 'armed',
        audio: 'running',
        alarm: 'ringing',
        none: 'No weight',
      });
    }
    expect(errors).toEqual([]);
    theatre.process.kill('SIGCONT');
    // From here on the page's clock is the true one again, or what the bench says would look long past.
    await page.clock.resume();
    await expect.poll(() => page.locator('[data-alarm]').count(), { timeout: 60_000 }).toBe(0);
    expect(await page.locator('[data-total]').count()).toBe(1);
  });
});
