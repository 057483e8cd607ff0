import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import { afterQuiet, axe, badTargets, drawn, overflow } from './support/on-page';
import { launch, openTheatre, SIZES } from './support/theatre';
import type { Size, Theatre } from './support/theatre';

const SHEET = { name: 'The pot now' } as const;

describe.each(Object.keys(SIZES) as Size[])('what the pot is now, at %s', (size) => {
  let browser: Browser;
  let theatre: Theatre;
  let page: Page;
  const line = () => page.getByRole('button', { name: /superfat/ });

  beforeAll(async () => {
    [browser, theatre] = await Promise.all([launch(), openTheatre()]);
    page = await browser.newPage({ viewport: SIZES[size], locale: 'en-GB' });
    await page.goto(theatre.url());
    await page.waitForSelector('main[data-phase="idle"]');
  });
  afterAll(async () => {
    await browser.close();
    await theatre.close();
  });

  it('is one calm line while all is as planned, and moves with a pour that passes its target', async () => {
    await theatre.order({ do: 'play', scene: 'pot' });
    await line().waitFor();
    expect(await line().textContent()).toMatch(/^superfat 5\.0 % ±\d\.\d$/);
    await theatre.order({ do: 'play', scene: 'pot-over' });
    await page.getByRole('button', { name: /superfat 7\.\d %.*check/ }).waitFor();
  });

  it('opens to its workings, all of them on the screen', async () => {
    await theatre.order({ do: 'play', scene: 'pot' });
    await line().waitFor();
    await afterQuiet(page);
    await line().click();
    const sheet = page.getByRole('dialog', SHEET);
    await sheet.waitFor();
    await drawn(page);
    const words = (await sheet.textContent()) ?? '';
    for (const said of [
      '95 times in 100',
      'worst case',
      'What makes it wide',
      'saponification value, coconut oil',
      'a certificate for the coconut oil',
    ])
      expect(words).toContain(said);
    expect(await overflow(page)).toEqual([0, 0]);
    expect(await sheet.evaluate((one) => one.scrollHeight - one.clientHeight)).toBeLessThanOrEqual(0);
    const foot = await sheet.boundingBox();
    expect((foot?.y ?? 0) + (foot?.height ?? 0)).toBeLessThanOrEqual(SIZES[size].height);
    expect(await badTargets(page)).toEqual([]);
    expect(await axe(page)).toEqual([]);
    await afterQuiet(page);
    await page.getByRole('button', { name: 'Close' }).click();
    await sheet.waitFor({ state: 'detached' });
  });

  it('what may be lye-heavy is said in per cent of superfat, never in degrees', async () => {
    await theatre.order({ do: 'play', scene: 'pot-waits' });
    await page.waitForSelector('[data-hold="hold"]');
    expect(await page.locator('[data-hold="hold"]').textContent()).toBe('It may be lye-heavysuperfat may be −0.4 %');
    expect(await page.locator('main').textContent()).not.toContain('0.0 °C allowed');
  });

  it('of a typed plan says that it is not worked out', async () => {
    await theatre.order({ do: 'play', scene: 'pouring' });
    await page.getByRole('button', { name: 'superfat not worked out' }).waitFor();
  });
});
