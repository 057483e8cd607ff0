import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import { SCENES } from './support/fixtures';
import type { SceneName } from './support/fixtures';
import { afterQuiet, axe, badTargets, cutWords, drawn, firstAidFaults, overflow, shifts, watchShifts } from './support/on-page';
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

  it.each(NAMES)('%s: nothing scrolls, nothing is too small or cut, first aid is one tap away, axe finds nothing', async (name) => {
    await theatre.order({ do: 'play', scene: name });
    await page.waitForSelector(`main[data-phase="${SCENES[name]().frame.cue.phase}"]`);
    await drawn(page);
    expect(await overflow(page)).toEqual([0, 0]);
    expect(await badTargets(page)).toEqual([]);
    expect(await firstAidFaults(page)).toEqual([]);
    expect(await cutWords(page)).toEqual([]);
    expect(await axe(page)).toEqual([]);
  });

  it('nothing moved from the first pixel on, through all of them', async () => {
    expect(await shifts(page)).toEqual([]);
  });
});

it('a part that did not come with the page says so, and comes with a press', async () => {
  const [browser, theatre] = await Promise.all([launch(), openTheatre()]);
  try {
    const page = await browser.newPage({ viewport: SIZES.small, locale: 'en-GB' });
    const first = await (await fetch(theatre.url())).text();
    let gone = true;
    await page.route('**/_next/static/chunks/*.js', (route) =>
      gone && !first.includes(new URL(route.request().url()).pathname) ? route.abort() : route.continue(),
    );
    await page.goto(theatre.url());
    const again = page.locator('[data-missing]');
    await again.waitFor();
    expect(await badTargets(page)).toEqual([]);
    gone = false;
    await afterQuiet(page);
    await again.click();
    await page.waitForSelector('[data-card="plan-alder-and-oat"], [data-card^="plan"]');
    expect(await again.count()).toBe(0);
  } finally {
    await browser.close();
    await theatre.close();
  }
});
