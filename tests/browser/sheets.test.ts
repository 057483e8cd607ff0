import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import type { SceneName } from './support/fixtures';
import { afterQuiet, axe, badTargets, drawn, overflow } from './support/on-page';
import { launch, openBench, openTheatre, SIZES } from './support/theatre';
import type { Size, Theatre } from './support/theatre';

/** Longer than a hold must last, shorter than something lying there. */
const HELD_MS = 2_300;

/** Ways to each sheet, in the names of the targets pressed. */
const SHEETS: readonly { readonly scene: SceneName; readonly targets: readonly string[] }[] = [
  { scene: 'pouring', targets: ['More'] },
  { scene: 'no-weight', targets: ['More', 'By hand'] },
  { scene: 'pouring', targets: ['More', 'This screen'] },
  { scene: 'ready', targets: ['More', 'Practice scene'] },
  { scene: 'ready', targets: ['More', 'Practice scene', 'Unplug'] },
  { scene: 'hydroxide-pouring', targets: ['First aid'] },
  { scene: 'pouring', targets: ['More', 'Cross out'] },
  { scene: 'pouring', targets: ['More', 'Cross out', 'undone'] },
  { scene: 'hydroxide-pouring', targets: ['More', 'Move out'] },
  { scene: 'hydroxide-pouring', targets: ['More', 'Move out', 'lye jug'] },
  { scene: 'hydroxide-pouring', targets: ['More', 'Move out', 'oils pot', 'clay cup'] },
  { scene: 'hydroxide-pouring', targets: ['More', 'Move out', 'oils pot', 'Waste', 'Only a part'] },
  { scene: 'hydroxide-pouring', targets: ['More', 'Wrong, or lost', 'Lost'] },
  { scene: 'hydroxide-pouring', targets: ['More', 'Wrong, or lost', 'Lost', 'lye jug'] },
  { scene: 'hydroxide-pouring', targets: ['More', 'Wrong, or lost', 'Lost', 'lye jug', 'Evaporated', 'Only a part'] },
  { scene: 'moulds', targets: ['More', 'Wrong, or lost', 'Lost', 'oils pot'] },
  { scene: 'moulds', targets: ['More', 'By hand'] },
  { scene: 'pouring', targets: ['More', 'Park'] },
  { scene: 'pouring', targets: ['More', 'Park', 'time is up'] },
  { scene: 'pouring', targets: ['More', 'Stop the batch', 'spilt'] },
  { scene: 'moulds', targets: ['More', 'Close the batch'] },
  { scene: 'mould-by-turns', targets: ['Parts and moulds'] },
  { scene: 'mould-by-turns', targets: ['Parts and moulds', '26-11/2 Tray'] },
  { scene: 'mould-by-turns', targets: ['Parts and moulds', '26-11/2 Tray', 'Type it', 'Only a part'] },
  { scene: 'patterns', targets: ['More', 'Parts and moulds', '26-11/2 Tray'] },
  { scene: 'pouring', targets: ['More', 'Wrong, or lost'] },
  { scene: 'pouring', targets: ['More', 'Wrong, or lost', 'Other material was poured'] },
  { scene: 'pouring', targets: ['More', 'Wrong, or lost', 'Other scale from now on'] },
  { scene: 'pouring', targets: ['More', 'Wrong, or lost', 'Not enough left', 'Coconut oil'] },
  { scene: 'pouring', targets: ['More', 'Wrong, or lost', 'Not enough left', 'Coconut oil', 'So much is left'] },
  { scene: 'pouring', targets: ['More', 'Wrong, or lost', 'Melted already', 'Coconut oil'] },
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

  it('moves a part, read back, takes all of it out, tells what was lost; each is held, and a mixture never goes back to a bottle', async () => {
    await theatre.order({ do: 'play', scene: 'hydroxide-pouring' });
    ({ page, context } = await openBench(browser, theatre, { size }));
    const target = (name: string) => page.getByRole('button', { name: new RegExp(`^${name}`) });
    const press = async (...names: readonly string[]): Promise<void> => {
      for (const name of names) {
        await afterQuiet(page);
        await target(name).click();
      }
    };
    const hold = async (name: string): Promise<unknown> => {
      await afterQuiet(page);
      const heard = theatre.next('intent');
      await target(name).click({ delay: HELD_MS });
      return (await heard).message;
    };
    await press('More', 'Move out', 'oils pot');
    expect(await target('Its bottle').getAttribute('aria-disabled')).toBe('true');
    await press('clay cup', 'Only a part');
    await page.keyboard.type('12.5');
    await press('Read it back');
    expect(await page.locator('[data-read]').textContent()).toBe('12.5 g');
    const moved = { kind: 'move', from: 'oils-pot', to: 'clay-cup', mass: 12_500, residue: null };
    expect(await hold('That is right')).toMatchObject({ want: moved });

    await press('More', 'Move out', 'lye jug', 'Its bottle');
    const taken = { kind: 'withdraw', vessel: 'lye-jug', mass: 281_400, to: 'bottle' };
    expect(await hold('All of it')).toMatchObject({ want: taken });

    await press('More', 'Wrong, or lost', 'Lost', 'oils pot');
    expect(await target('Evaporated').getAttribute('aria-disabled')).toBe('true');
    await press('Spilt', 'Only a part');
    await page.keyboard.type('3');
    await press('Read it back');
    const spilt = { kind: 'state-wrong', what: 'spill', line: null, vessel: 'oils-pot', mass: 3_000, held: true };
    expect(await hold('That is right')).toMatchObject({ want: spilt });
    const lost = { kind: 'lose', vessel: 'lye-jug', note: '' };
    await press('More', 'Wrong, or lost', 'Lost', 'lye jug', 'Evaporated');
    expect(await hold('All of it')).toMatchObject({ want: { ...lost, mass: 281_400, cause: 'evaporation' } });
    await press('More', 'Wrong, or lost', 'Lost', 'lye jug', 'Otherwise', 'Only a part');
    await page.keyboard.type('2000');
    await press('Read it back');
    expect(await target('That is right').getAttribute('aria-disabled')).toBe('true');
    await press('Change it');
    for (const _key of '2000') await page.keyboard.press('Backspace');
    await page.keyboard.type('2');
    await press('Read it back');
    expect(await hold('That is right')).toMatchObject({ want: { ...lost, mass: 2_000, cause: 'other' } });
    await context.close();
  });

  it('unplugs and plugs every cable, leans a probe in, and lets time go slowly again', async () => {
    await theatre.order({ do: 'play', scene: 'ready' });
    ({ page, context } = await openBench(browser, theatre, { size }));
    const press = async (name: string): Promise<void> => {
      await afterQuiet(page);
      await page.getByRole('button', { name: new RegExp(`^${name}`) }).click();
    };
    const played = async (name: string): Promise<unknown> => {
      const heard = theatre.next('scene');
      await press(name);
      return (await heard).message;
    };
    await press('More');
    await press('Practice scene');
    for (const [cable, what] of [
      ['big scale', 'main'],
      ['small scale', 'fine'],
      ['lye', 'lye'],
      ['oils', 'oils'],
      ['room', 'room'],
    ] as const) {
      await press('Unplug');
      expect(await played(cable)).toEqual({ act: 'unplug', what });
      await press('Plug in');
      expect(await played(cable)).toEqual({ act: 'plug', what });
    }
    expect(await played('Lean a probe in')).toEqual({ act: 'lean-probe' });
    expect(await played('Time ?× 1')).toEqual({ act: 'hurry', times: 1 });
    expect(await played('Time ?× 20')).toEqual({ act: 'hurry', times: 20 });
    await context.close();
  }, 300_000);

  it('the temperatures by themselves: fit and read', async () => {
    await theatre.order({ do: 'play', scene: 'temperatures' });
    ({ page, context } = await openBench(browser, theatre, { size, path: '/bench/temperatures' }));
    await page.waitForSelector('.uplot canvas');
    await drawn(page);
    expect(await page.locator('h1').textContent()).toBe('Meet in 14–19 min');
    expect(await page.locator('[data-expected="setting"]').textContent()).toContain('warm the pot to 47.5 °C now');
    const [rows, press] = await Promise.all([
      page.locator('[data-expected]').last().boundingBox(),
      page.locator('[data-moved="lye"]').boundingBox(),
    ]);
    expect((rows?.y ?? Infinity) + (rows?.height ?? 0)).toBeLessThanOrEqual(press?.y ?? 0);
    const heard = theatre.next('intent');
    await afterQuiet(page);
    await page.locator('[data-moved="lye"]').click();
    expect((await heard).message).toMatchObject({ want: { kind: 'moved', vessel: 'lye' } });
    expect(await overflow(page)).toEqual([0, 0]);
    expect(await badTargets(page)).toEqual([]);
    expect(await axe(page)).toEqual([]);
    await context.close();
  });
});

describe('parts and moulds at their sheet', () => {
  let browser: Browser;
  let theatre: Theatre;

  beforeAll(async () => {
    [browser, theatre] = await Promise.all([launch(), openTheatre()]);
  });
  afterAll(async () => {
    await browser.close();
    await theatre.close();
  });

  it('says how a mould is poured: from which jugs, by what it is weighed, that its pattern is dropped, and that it is wrong', async () => {
    await theatre.order({ do: 'play', scene: 'mould-by-turns' });
    const { page, context } = await openBench(browser, theatre, { size: 'wide' });
    const said = async (names: readonly string[], held = false): Promise<unknown> => {
      for (const name of names.slice(0, -1)) {
        await afterQuiet(page);
        await page.getByRole('button', { name: new RegExp(`^${name}`) }).click();
      }
      await afterQuiet(page);
      const heard = theatre.next('intent');
      await page.getByRole('button', { name: new RegExp(`^${names.at(-1)}`) }).click(held ? { delay: HELD_MS } : {});
      return (await heard).message;
    };
    const tray = ['Parts and moulds', '26-11/2 Tray'];
    expect(await said([...tray, 'the pot', 'Set it on the scale'])).toMatchObject({
      want: { kind: 'pour-into', job: 'mould:2', by: 'gain', from: ['part:green'] },
    });
    expect(await said([...tray, 'Out of the pot'])).toMatchObject({
      want: { kind: 'pour-into', job: 'mould:2', by: 'loss', from: ['pot'] },
    });
    expect(await said([...tray, 'Plain pour'], true)).toMatchObject({ want: { kind: 'name-pattern', mould: 2, pattern: 'plain-pour' } });
    expect(await said(['Parts and moulds', 'Wrong'])).toMatchObject({ want: { kind: 'stamp-trace', mark: 'wrong' } });
    await context.close();
  });
});
