import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import { afterQuiet } from './support/on-page';
import { launch, openBench, openTheatre } from './support/theatre';
import type { Theatre } from './support/theatre';

/** What the page itself wrote: a script run from outside is told "running" where a person hears nothing. */
const written = (page: Page): Promise<readonly (string | null)[]> =>
  Promise.all(['data-sound', 'data-audio'].map((name) => page.locator('[data-audio]').getAttribute(name)));

describe('A10: whether an alarm would be heard', () => {
  let browser: Browser;
  let theatre: Theatre;
  let page: Page;

  beforeAll(async () => {
    [browser, theatre] = await Promise.all([launch(), openTheatre()]);
  });
  afterAll(async () => {
    await browser.close();
    await theatre.close();
  });
  beforeEach(async () => {
    await theatre.order({ do: 'play', scene: 'pouring' });
    ({ page } = await openBench(browser, theatre));
    await afterQuiet(page);
  });

  it('is off and says so until a tap arms it', async () => {
    expect(await written(page)).toEqual(['unarmed', 'none']);
    await page.getByRole('button', { name: /^Sound/ }).click();
    await page.waitForSelector('[data-sound="armed"][data-audio="running"]');
    expect(await page.getByRole('button', { name: /^Sound/ }).textContent()).toContain('armed');
  });

  it('is blocked and says so when the system stops it, and comes back with the next touch of anything', async () => {
    await page.close();
    page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    // Keeps the page's own context, to stop it as a lock screen or a call does.
    await page.addInitScript(() => {
      const Own = AudioContext;
      globalThis.AudioContext = class extends Own {
        constructor() {
          super();
          Object.assign(globalThis, { own: this });
        }
      };
    });
    await page.goto(theatre.url());
    await page.waitForSelector('main[data-phase="pouring"]');
    await afterQuiet(page);
    await page.getByRole('button', { name: /^Sound/ }).click();
    await page.waitForSelector('[data-audio="running"]');
    await page.evaluate(() => (globalThis as unknown as { own: AudioContext }).own.suspend());
    await expect.poll(() => written(page), { timeout: 10_000 }).toEqual(['blocked', 'suspended']);
    await page.mouse.click(400, 200);
    await page.waitForSelector('[data-sound="armed"][data-audio="running"]');
  });

  it('shows an alarm that nobody can hear, and silence stops it here and tells the server', async () => {
    await theatre.order({ do: 'play', scene: 'over-red' });
    await page.waitForSelector('[data-alarm="ringing"]');
    const button = page.getByRole('button', { name: /^Silence/ });
    expect(await button.textContent()).toContain('sound is off');
    await afterQuiet(page);
    const heard = theatre.next('intent');
    await button.click();
    expect((await heard).message).toMatchObject({ want: { kind: 'press', key: 'silence' } });
    // Silence is no acknowledgement: what is wrong stays on the screen.
    expect(await page.locator('[data-alarm]').count()).toBe(1);
  });

  it('keeps mute over a reload, and shows it', async () => {
    await page.getByRole('button', { name: /^Sound/ }).click();
    await page.waitForSelector('[data-sound="armed"]');
    for (const name of ['More', 'This screen', 'Mute the sound']) {
      await page.getByRole('button', { name }).click();
      await afterQuiet(page);
    }
    await page.waitForSelector('[data-sound="muted"]');
    await page.reload();
    await page.waitForSelector('main[data-phase="pouring"]');
    await afterQuiet(page);
    expect(await page.evaluate(() => localStorage.getItem('potwatch.preferences'))).toContain('"muted":true');
  });

  it('says so where there is no voice', async () => {
    await page.waitForSelector('[data-voice="no-voice"]');
    expect(await page.locator('main').textContent()).toContain('no voice');
  });
});
