import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import type { ShelfDocument } from '#lib/protocol/shelf';
import type { Formula } from '#lib/work/formula/index';
import { freePort, serverProcess, tempFolder } from '#tests/support/server-rig';
import type { ServerProcess } from '#tests/support/server-rig';
import { RICH, RICH_WORKSHOP } from '#tests/support/rich-formula';
import { axe, drawn } from './support/on-page';
import { section } from './support/on-paper';
import { launch, SIZES } from './support/theatre';

/** Figures of the sheet that nobody typed and that do not open, with the head of their column. */
const closed = (page: Page): Promise<readonly string[]> =>
  page.locator('main td').evaluateAll((cells) =>
    cells.flatMap((cell) => {
      const table = cell.closest('table');
      const typed = cell.querySelector('input, select') !== null || cell.closest('tr')?.querySelector('[colspan]') !== null;
      if (table === null || typed || !/\d/.test((cell as HTMLElement).innerText) || cell.querySelector('button') !== null) return [];
      const head = table.tHead?.rows[0]?.cells[(cell as HTMLTableCellElement).cellIndex]?.textContent ?? '';
      return /^(no\.|asked for|lot|version|kept|why|)$/.test(head) ? [] : [`${head}: ${(cell as HTMLElement).innerText}`];
    }),
  );

describe('figures of a rich formula', () => {
  const folder = tempFolder();
  let browser: Browser;
  let server: ServerProcess;
  const url = (path: string): string => `http://localhost:${server.port}${path}`;
  const put = async (noun: string, document: { readonly id: string }): Promise<void> => {
    const response = await fetch(url(`/api/shelf/${noun}/${document.id}`), {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ expected: 0, document, note: '' }),
    });
    expect(response.status).toBe(200);
  };
  const open = async (preferences: Readonly<Record<string, unknown>> = {}): Promise<Page> => {
    const context = await browser.newContext({ viewport: SIZES.wide, locale: 'en-GB' });
    const page = await context.newPage();
    page.setDefaultTimeout(15_000);
    await page.addInitScript((kept) => localStorage.setItem('potwatch.preferences', kept), JSON.stringify(preferences));
    await page.goto(url(`/formulas/sheet?id=${RICH.id}`));
    await page.waitForSelector('[data-answer="plan"]');
    return page;
  };
  beforeAll(async () => {
    server = await serverProcess(['--port', String(await freePort()), '--data', folder.path, '--scale', 'practice']);
    const { materials, lots, moulds, vessels, pace, room, losses } = RICH_WORKSHOP;
    for (const one of materials.filter(({ origin }) => origin === 'maker')) await put('material', one);
    for (const one of lots) await put('lot', one);
    for (const one of moulds) await put('mould', one);
    for (const one of vessels) await put('vessel', one);
    await put('habits', { id: 'maker', pace, room, losses, superfat: null, lye: null } as { readonly id: string });
    await put('formula', RICH);
    browser = await launch();
  });
  afterAll(async () => {
    await browser?.close();
    await server?.end('SIGTERM');
    folder.remove();
  });

  it('every one opens, the two of the first line and each of the plan too', async () => {
    const page = await open();
    expect(await closed(page)).toEqual([]);
    const lead = page.locator('[data-answer="plan"] button');
    expect(await lead.count()).toBe(2);
    await lead.first().click();
    await page.getByText(/weight of each oil$/).waitFor();
    const soda = page.locator('tr[data-line="soda"] button');
    await soda.nth(0).click();
    await page.getByText('× share by moles ÷ moles to a gram').waitFor();
    await soda.nth(1).click();
    await page.getByText('permissible error at this load').waitFor();
    // The same figure stands in two places: each slip has a name of its own.
    await section(page, 'Hydroxide').locator('tr[data-entry="soda"] td button').nth(0).click();
    const ids = await page.locator('[id^="workings-"]').evaluateAll((all) => all.map(({ id }) => id));
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids.length).toBe(3);
    await drawn(page);
    expect(await axe(page)).toEqual([]);
    await page.context().close();
  });

  it('on a phone every figure of a row has its head over it, and nothing hangs out', async () => {
    const page = await open();
    await page.setViewportSize(SIZES.phone);
    await drawn(page);
    const bare = await page.locator('tbody > tr > td').evaluateAll((cells) =>
      cells.flatMap((cell) => {
        const text = (cell as HTMLElement).innerText;
        const seen = cell.getBoundingClientRect().width > 0;
        const thead = cell.closest('table')?.tHead;
        const headed = (thead?.getBoundingClientRect().height ?? 0) > 0 || (cell as HTMLElement).dataset['head'] !== undefined;
        return seen && thead != null && /\d/.test(text) && cell.closest('[colspan]') === null && !headed ? [text] : [];
      }),
    );
    expect(bare).toEqual([]);
    const out = await page.locator('main table').evaluateAll((all) => all.map((one) => one.getBoundingClientRect().right - innerWidth));
    expect(out.filter((past) => past > 0)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBe(0);
    const plan = section(page, 'The plan').locator('tr[data-line="soda"]');
    expect(await plan.innerText()).toContain('into the soda cup, big scale');
    await page.context().close();
  });

  it('a batch made ready in another size opens to its own numbers, not to the sheet’s', async () => {
    const page = await open();
    await page.getByRole('button', { name: 'Make a batch ready' }).click();
    const ready = section(page, 'Make ready');
    await ready.getByLabel('The batch is as large as').selectOption('fats');
    await ready.getByLabel('Weight', { exact: true }).fill('1000');
    const total = ready.locator('tr[data-line="olive"] button').first();
    await expect.poll(() => total.innerText()).toBe('380.0');
    await total.click();
    await ready.getByText('38 % × 1000 g = 380 g').waitFor();
    // What is to be minded of it, and what is printed of it, are of that size too.
    await section(page, 'Before you weigh it so').getByText('short loaf would be only').waitFor();
    await page.emulateMedia({ media: 'print' });
    expect(await page.getByText(/^1000\.0 g of oils make [\d.]+ g of batter\.$/).isVisible()).toBe(true);
    expect(await page.locator('[data-answer]').isVisible()).toBe(false);
    expect(await section(page, 'Before you weigh').isVisible()).toBe(false);
    expect(await page.locator('[id^="workings-"]').first().isVisible()).toBe(false);
    await page.context().close();
  });

  it('follow the person’s units: ounces that are never none, and degrees Fahrenheit that are typed and kept as they were', async () => {
    const page = await open({ mass: 'oz', temperature: 'F' });
    const tolerances = await page.locator('tr[data-line] td:nth-child(4)').allInnerTexts();
    expect(tolerances.length).toBe(14);
    expect(tolerances.filter((text) => !(Number.parseFloat(text) > 0))).toEqual([]);
    const meet = section(page, 'Lye and oils meet');
    await meet.getByLabel('Temperatures', { exact: true }).selectOption('said');
    await meet.getByLabel('Window from, °F').fill('95');
    await meet.getByLabel('Window to, °F').fill('113.5');
    await meet.getByLabel('Lye and oils apart by at most, °F').fill('9');
    await meet.getByText('both between 95.0 °F and 113.5 °F; at most 9.0 °F apart').waitFor();
    expect(await meet.getByLabel('Window to, °F').inputValue()).toBe('113.5');
    await page.getByText('Lye and oils both between 95.0 °F and 113.5 °F, no more than 9.0 °F apart.').waitFor();
    await page.getByRole('button', { name: 'Keep it as version 2' }).click();
    await page.getByRole('button', { name: 'Kept', exact: true }).waitFor();
    const kept = (await (await fetch(url(`/api/shelf/formula/${RICH.id}`))).json()) as ShelfDocument;
    const last = kept.versions.at(-1)?.document as unknown as Formula | undefined;
    expect(last?.temperatures).toMatchObject({ window: { low: '35', high: '45.277778' }, apart: '5' });
    await page.reload();
    await page.waitForSelector('[data-answer="plan"]');
    expect(await meet.getByLabel('Window to, °F').inputValue()).toBe('113.5');
    await page.context().close();
  });
});
