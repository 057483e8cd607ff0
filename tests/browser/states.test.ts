import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import { SCENES } from './support/fixtures';
import type { SceneName } from './support/fixtures';
import { axe, badTargets, drawn, overflow, shifts, watchShifts } from './support/on-page';
import { launch, openTheatre, SIZES } from './support/theatre';
import type { Size, Theatre } from './support/theatre';

const NAMES = Object.keys(SCENES) as SceneName[];

describe.each(Object.keys(SIZES) as Size[])('every state at %s', (size) => {
  let browser: Browser;
  let theatre: Theatre;
  let page: Page;

  beforeAll(async () => {
    [browser, theatre] = await Promise.all([launch(), openTheatre()]);
    page = await browser.newPage({ viewport: SIZES[size], locale: 'en-GB' });
    await watchShifts(page);
    await page.goto(theatre.url());
    await page.waitForSelector('main[data-phase="idle"]');
  });
  afterAll(async () => {
    await browser.close();
    await theatre.close();
  });

  it.each(NAMES)('%s: nothing scrolls, nothing is too small, axe finds nothing', async (name) => {
    await theatre.order({ do: 'play', scene: name });
    await page.waitForSelector(`main[data-phase="${SCENES[name]().frame.cue.phase}"]`);
    await drawn(page);
    expect(await overflow(page)).toEqual([0, 0]);
    expect(await badTargets(page)).toEqual([]);
    expect(await axe(page)).toEqual([]);
  });

  it('nothing moved from the first pixel on, through all of them', async () => {
    expect(await shifts(page)).toEqual([]);
  });
});
