import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { Browser, BrowserContext, CDPSession, Page } from 'playwright-core';
import type { SceneName } from './support/fixtures';
import { afterQuiet, axe, heeded } from './support/on-page';
import { launch, openBench, openTheatre, PLAIN_NAME } from './support/theatre';
import type { Theatre } from './support/theatre';

/** Longer than a hold must last, shorter than something lying there. */
const HELD_MS = 2_200;

/** The whole suite once where browsers give everything, and once at a plain-http name, where a workshop's tablet stands. */
describe.each(['127.0.0.1', PLAIN_NAME])('A12: hands, keys and screen readers at http://%s', (name) => {
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
  beforeEach(async () => {
    await theatre.order({ do: 'play', scene: 'pouring' });
    ({ page, context } = await openBench(browser, theatre, { name, touch: true, size: 'small' }));
  });
  afterEach(() => context.close());

  const play = async (scene: SceneName): Promise<void> => {
    await theatre.order({ do: 'play', scene });
    await afterQuiet(page);
  };
  /** What the next intent wants. */
  const wanted = async (act: () => Promise<unknown>): Promise<unknown> =>
    ((await heeded(page, act, () => theatre.next('intent'))).message as { want: unknown }).want;
  const intents = (): number => theatre.heard.filter(({ event }) => event === 'intent').length;
  /** Does something, then one thing that certainly is sent: nothing else was. */
  const sendsNothing = async (act: () => Promise<unknown>): Promise<void> => {
    const before = intents();
    await act();
    await wanted(() => page.keyboard.press('s'));
    expect(intents()).toBe(before + 1);
  };

  it('goes on, goes back and silences by key', async () => {
    await play('offer');
    expect(await wanted(() => page.keyboard.press('Enter'))).toEqual({ kind: 'press', key: 'go-on', hold: false });
    expect(await wanted(() => page.keyboard.press('PageUp'))).toEqual({ kind: 'press', key: 'back', hold: false });
    expect(await wanted(() => page.keyboard.press('Escape'))).toEqual({ kind: 'press', key: 'silence', hold: false });
  });

  it('holds by a key that repeats, as a pedal does, with the track filling', async () => {
    await play('hydroxide-hold');
    const heard = theatre.next('intent');
    await page.keyboard.down('Enter');
    await page.waitForSelector('[data-go="accept-held"][data-hold="holding"]');
    for (let repeat = 0; repeat < 5; repeat += 1) await page.keyboard.down('Enter');
    await page.waitForSelector('[data-go="accept-held"][data-hold="full"]');
    await page.keyboard.up('Enter');
    expect(((await heard).message as { want: unknown }).want).toEqual({ kind: 'press', key: 'go-on', hold: true });
  });

  it('takes the card that was stepped to by a hold of the key', async () => {
    await play('over-red');
    expect(await wanted(() => page.keyboard.press('Enter', { delay: HELD_MS }))).toEqual({ kind: 'press', key: 'go-on', hold: true });
  });

  it('holds a card by finger for two seconds, and only then', async () => {
    await play('over-red');
    const card = page.locator('[data-card="cross-out"]');
    await sendsNothing(() => touch(card, 600));
    expect(await wanted(() => touch(card, HELD_MS))).toEqual({ kind: 'take-card', card: 1, code: 'cross-out', hold: true });
  });

  it('says under “back” what its hold does: away, as the bench takes it', async () => {
    await play('pouring');
    const back = page.getByRole('button', { name: /^Back/ });
    expect(await back.textContent()).toBe('Backhold: away');
    expect(await wanted(() => touch(back, HELD_MS))).toEqual({ kind: 'press', key: 'back', hold: true });
  });

  it('never takes water for a hold: a second touch, a slide, or what does not let go', async () => {
    await play('over-red');
    const card = page.locator('[data-card="cross-out"]');
    await sendsNothing(() => touch(card, HELD_MS, { second: true }));
    await sendsNothing(() => touch(card, HELD_MS, { slide: 40 }));
    await sendsNothing(() => touch(card, 6_500));
  });

  it('lets a screen reader activate, wait, and confirm', async () => {
    await play('hydroxide-hold');
    const go = page.locator('[data-go="accept-held"]');
    // As assistive technology does it: a click without a pointer.
    const activate = (): Promise<void> => go.evaluate((button: HTMLButtonElement) => button.click());
    await sendsNothing(async () => {
      await activate();
      await activate();
    });
    await page.waitForSelector('[data-go="accept-held"][data-hold="confirm"]');
    expect(await wanted(activate)).toEqual({ kind: 'press', key: 'go-on', hold: true });
  });

  it('does a whole start by keyboard alone: plan, lots, start', async () => {
    await play('idle');
    await page.waitForSelector('[data-card^="plan"]');
    const choose = async (): Promise<void> => {
      await afterQuiet(page);
      await page.keyboard.press('Enter');
      await page.waitForSelector('[data-card][aria-current]');
      await page.keyboard.press('Enter', { delay: HELD_MS });
    };
    const heard = theatre.next('intent');
    // The plan, nine lots, and the clean bench.
    for (let step = 0; step < 11; step += 1) await choose();
    await afterQuiet(page);
    await page.keyboard.press('Enter');
    await page.keyboard.press('Enter', { delay: HELD_MS });
    const { want } = (await heard).message as { want: { kind: string; plan: string; lots: Record<string, unknown> } };
    expect(want).toMatchObject({ kind: 'start', plan: 'alder-and-oat' });
    expect(Object.keys(want.lots)).toHaveLength(9);
  }, 300_000);

  it('reaches every target by tab, with the keyboard staying with what it has', async () => {
    await play('ready');
    for (let stop = 0; stop < 12; stop += 1) {
      await page.keyboard.press('Tab');
      if ((await page.evaluate(() => document.activeElement?.textContent))?.startsWith('More') === true) break;
    }
    expect(await page.evaluate(() => document.activeElement?.textContent)).toContain('More');
    await sendsNothing(() => page.keyboard.press('Enter'));
    await page.waitForSelector('dialog');
    expect(await axe(page)).toEqual([]);
  });

  it('leaves no focus where a finger was, so that the pedal goes on and does not press it again', async () => {
    await play('ask');
    await page.getByRole('button', { name: 'More' }).tap();
    await page.waitForSelector('dialog');
    await afterQuiet(page);
    await page.getByRole('button', { name: 'Close' }).tap();
    await afterQuiet(page);
    expect(await wanted(() => page.keyboard.press('Enter'))).toEqual({ kind: 'press', key: 'go-on', hold: false });
  });

  it('types a weight by hand: asked which when ambiguous, read back, then sent', async () => {
    await play('no-weight');
    await page.getByRole('button', { name: 'More' }).tap();
    await afterQuiet(page);
    await page.getByRole('button', { name: 'By hand' }).tap();
    await afterQuiet(page);
    for (const key of ['1', '.', '2', '5', '0']) await page.getByRole('button', { name: key, exact: true }).tap();
    await page.getByRole('button', { name: 'Read it back' }).tap();
    expect(await page.locator('[data-reading]').allTextContents()).toEqual(['1.250 g', '1250 g']);
    expect(await axe(page)).toEqual([]);
    await page.locator('[data-reading="1250"]').tap();
    expect(await page.locator('[data-read]').textContent()).toBe('1250 g');
    expect(await wanted(() => page.getByRole('button', { name: 'That is right' }).tap())).toMatchObject({
      kind: 'type-weight',
      net: 1_250_000,
      unit: 'g',
      readBack: true,
    });
  });

  it('types the temperature of the batter once lye and oils are one, as the record asks for it', async () => {
    await play('trace');
    for (const name of ['More', 'By hand', 'Temperature']) {
      await page.getByRole('button', { name }).tap();
      await afterQuiet(page);
    }
    for (const key of ['3', '8']) await page.getByRole('button', { name: key, exact: true }).tap();
    await page.getByRole('button', { name: 'Read it back' }).tap();
    const right = page.getByRole('button', { name: 'That is right' });
    expect(await wanted(() => right.tap())).toEqual({ kind: 'type-temperature', use: 'batter', value: 38_000 });
  });

  it('says the sentence of the moment in the live region', async () => {
    await play('hydroxide-hold');
    expect(await page.locator('[data-say="hold"]').textContent()).toBe('Sodium hydroxide, 140.6 g. Hold to take it.');
  });

  /** A finger on the glass, by the browser's own input: a trusted touch, as long as wished. */
  const touch = async (
    target: ReturnType<Page['locator']>,
    ms: number,
    { second = false, slide = 0 }: { second?: boolean; slide?: number } = {},
  ): Promise<void> => {
    const box = await target.boundingBox();
    if (box === null) throw new Error('nothing to touch');
    const cdp: CDPSession = await context.newCDPSession(page);
    const at = { x: box.x + box.width / 2, y: box.y + box.height / 2, id: 1 };
    const points = (moved: number) => [{ ...at, x: at.x + moved }];
    await cdp.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: points(0) });
    if (second) await cdp.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [...points(0), { x: 20, y: 20, id: 2 }] });
    if (slide > 0) await cdp.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: points(slide) });
    await page.waitForTimeout(ms);
    await cdp.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
    await cdp.detach();
  };
});

describe('A12: what a plain-http page is not given', () => {
  it('is named on the screen, with the reason and what to do, and nothing breaks for want of it', async () => {
    const [browser, theatre] = await Promise.all([launch(), openTheatre()]);
    try {
      const errors: string[] = [];
      const { page } = await openBench(browser, theatre, { name: PLAIN_NAME });
      page.on('pageerror', (error) => errors.push(error.message));
      const missing = await page.evaluate(() => ({
        secure: isSecureContext,
        wakeLock: 'wakeLock' in navigator,
        randomUUID: 'randomUUID' in crypto,
        subtle: crypto.subtle !== undefined,
      }));
      expect(missing).toEqual({ secure: false, wakeLock: false, randomUUID: false, subtle: false });
      expect(await page.locator('[data-awake]').textContent()).toBe('may go dark: plain http');
      await afterQuiet(page);
      await page.getByRole('button', { name: 'More' }).click();
      await afterQuiet(page);
      await page.getByRole('button', { name: 'This screen' }).click();
      await page.waitForSelector('dialog[aria-label="This screen"]');
      expect(await page.locator('dialog').textContent()).toContain('https');
      expect(errors).toEqual([]);
    } finally {
      await browser.close();
      await theatre.close();
    }
  });

  it('is there at a loopback address, and the screen says it stays on', async () => {
    const [browser, theatre] = await Promise.all([launch(), openTheatre()]);
    try {
      const { page } = await openBench(browser, theatre);
      await page.waitForSelector('[data-awake="awake"]');
    } finally {
      await browser.close();
      await theatre.close();
    }
  });
});
