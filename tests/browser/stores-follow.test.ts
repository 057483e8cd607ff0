import sharp from 'sharp';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import type { BatchPage } from '#lib/protocol/http';
import type { ShelfList } from '#lib/protocol/shelf';
import type { Lot } from '#lib/work/formula/index';
import { freePort, screenAt, serverProcess, tempFolder } from '#tests/support/server-rig';
import type { ScreenRig, ServerProcess } from '#tests/support/server-rig';
import { isSound, section } from './support/on-paper';
import { launch, SIZES } from './support/theatre';

/** One lot from its arrival to a recall, and one record from its weights to what is said of it later: on the production build. */
const folder = tempFolder();
let browser: Browser;
let server: ServerProcess;
let screen: ScreenRig;
let port = 0;
const url = (path: string): string => `http://localhost:${port}${path}`;
const get = async <T>(path: string): Promise<T> => (await fetch(url(path))).json() as Promise<T>;
const open = async (path: string, ready = 'h1'): Promise<Page> => {
  const page = await browser.newPage({ viewport: SIZES.wide, locale: 'en-GB' });
  await page.goto(url(path));
  await page.waitForSelector(ready);
  return page;
};
/** To be looked at: POTWATCH_SHOTS names a folder. */
const shoot = async (page: Page, name: string): Promise<void> => {
  const into = process.env['POTWATCH_SHOTS'];
  if (into === undefined) return;
  mkdirSync(into, { recursive: true });
  for (const [size, viewport] of Object.entries(SIZES)) {
    await page.setViewportSize(viewport);
    await page.screenshot({ path: join(into, `${name}-${size}.png`), fullPage: true });
  }
  await page.setViewportSize(SIZES.wide);
};
/** A reader of barcodes: keys in one burst, ended by Enter. */
const scan = (page: Page, text: string): Promise<void> =>
  page.evaluate((all) => {
    for (const key of [...Array.from(all), 'Enter'])
      for (const type of ['keydown', 'keyup'])
        document.body.dispatchEvent(new KeyboardEvent(type, { key, bubbles: true, cancelable: true }));
  }, text);
const LABEL = '(01)06291041500213(17)991231(10)RA 77';

beforeAll(async () => {
  port = await freePort();
  server = await serverProcess(['--port', String(port), '--data', folder.path]);
  browser = await launch();
  screen = screenAt(port);
  await screen.greeted();
});
afterAll(async () => {
  screen?.close();
  await browser?.close();
  if (server?.child.exitCode === null && server.child.signalCode === null) await server.end('SIGTERM');
  folder.remove();
});

describe('a lot from its arrival to a recall', () => {
  it('is received by its label, weighed by scan at its line, followed, set apart and listed', async () => {
    const stores = await open('/stores');
    const lots = section(stores, 'Lots');
    await lots.getByRole('button', { name: 'Add a lot' }).click();
    await lots.getByLabel('Scan its label into this field').fill(LABEL);
    await lots.getByLabel('Scan its label into this field').press('Enter');
    await lots.getByText('Taken from its label').waitFor();
    expect(await lots.getByLabel('Mark on the container').inputValue()).toBe('RA 77');
    // 73 years ahead is the century before (GS1 General Specifications, 7.12).
    expect(await lots.getByLabel('Last day it is to be used').inputValue()).toBe('1999-12-31');
    await lots.getByLabel('Last day it is to be used').fill('2027-02-30');
    await lots.getByLabel('Material').selectOption('Coconut oil');
    await lots.getByLabel('Received, year-month-day').fill('2026-11-02');
    await lots.getByLabel('How much came, g').fill('250');
    await lots.getByRole('button', { name: 'Keep it' }).click();
    await lots.getByText('A day as 2026-11-03 belongs here.').waitFor();
    await lots.getByLabel('Last day it is to be used').fill('2099-02-28');
    await shoot(stores, 'receive');
    await lots.getByRole('button', { name: 'Keep it' }).click();
    await lots.getByText('Kept: RA 77.').waitFor();
    const [kept] = (await get<ShelfList>('/api/shelf/lot')).items.map(({ document }) => document as unknown as Lot);
    expect(kept).toMatchObject({ mark: 'RA 77', gtin: '06291041500213', received: { day: '2026-11-02', amount: 250_000 } });

    await screen.lease('take');
    expect(await screen.intent({ kind: 'start', plan: 'alder-and-oat', lots: {}, cleaned: ['the bench is wiped'] })).toMatchObject({
      ok: true,
    });
    await screen.lease('release');
    const bench = await open('/bench', 'main[data-phase]');
    await expect.poll(() => screen.leases.at(-1)?.holder).toBeTruthy();
    // Whichever part is fetched last listens for the reader: scanned until it was heard.
    await expect
      .poll(async () => {
        await scan(bench, `(01)06291041500213(10)RA 77`);
        return screen.batch()?.lines['coconut' as never]?.plan.lot?.mark;
      })
      .toBe('RA 77');
    await scan(bench, 'NOBODY 1');
    await bench.locator('[data-notice="lot-unknown"]').waitFor();
    await bench.close();

    await screen.lease('take');
    const typed = { kind: 'type-weight', line: 'coconut', net: 280_000, text: '280', unit: 'g', readBack: true, part: false } as const;
    expect(await screen.insist(typed)).toMatchObject({ ok: true });
    expect(await screen.insist({ kind: 'abandon', reason: 'practice only', held: true })).toMatchObject({ ok: true });
    const mark = screen.batch()?.mark ?? '';

    // More was weighed out than came, and it says so.
    await stores.reload();
    const row = lots.getByRole('row', { name: /RA 77/ });
    await row.waitFor();
    expect(await row.innerText()).toContain('−30');
    await row.getByRole('button', { name: 'Open RA 77' }).click();
    await shoot(stores, 'stock');
    await lots.getByText('more was weighed out than came').waitFor();
    await lots.getByRole('link', { name: 'Follow it' }).click();
    await stores.getByText('280.0 g of RA 77 went into one batch.').waitFor();
    expect(await stores.locator(`tr[data-followed="${mark}"]`).innerText()).toContain('280.0 g');
    await isSound(stores);
    await shoot(stores, 'follow-lot');

    await stores.getByLabel('Or the mark on a bar or batch').fill(mark);
    await stores.getByRole('button', { name: 'Follow it' }).click();
    await section(stores, 'What is in it').getByRole('link', { name: 'RA 77' }).waitFor();
    await isSound(stores);
    await shoot(stores, 'follow-back');

    await stores.goto(url(`/stores/recall?lot=${encodeURIComponent(kept?.id ?? '')}`));
    await stores.getByText('One batch, no bar made: no bar still here, no bar gone.').waitFor();
    await stores.getByLabel('Why it is set apart').fill('smells');
    await stores.getByRole('button', { name: 'Set the lot apart' }).click();
    await stores.getByText('The lot is set apart: the bench refuses it.').waitFor();
    await stores.evaluate(() => void (window.print = () => void (document.body.dataset['printed'] = 'yes')));
    await stores.getByRole('button', { name: 'Print the list' }).click();
    expect(await stores.evaluate(() => document.body.dataset['printed'])).toBe('yes');
    await stores.emulateMedia({ media: 'print' });
    expect(await stores.getByRole('button', { name: 'Print the list' }).isVisible()).toBe(false);
    expect(await stores.locator(`tr[data-followed="${mark}"]`).isVisible()).toBe(true);
    await stores.emulateMedia({ media: 'screen' });
    await isSound(stores);
    await shoot(stores, 'recall');

    await stores.goto(url('/stores/complaints'));
    await stores.getByLabel('Mark on the bar').fill(`${mark}/9`);
    await stores.getByLabel('Day it happened').fill('2026-11-20');
    await stores.getByLabel('What happened').fill('a red wrist');
    await stores.getByText('serious', { exact: true }).click();
    await stores.getByText('A serious reaction may have to be reported').waitFor();
    await stores.getByRole('button', { name: 'Keep it and hold its bars' }).click();
    // The batch has one mould: read again, or kept all the same.
    await stores.getByText(`No bars of this workshop bear the mark ${mark}/9.`).waitFor();
    await stores.getByRole('button', { name: 'Keep it all the same' }).click();
    await stores.getByText('Kept. Nothing of that batch is on the shelf').waitFor();
    await section(stores, 'What is in it').getByRole('link', { name: 'RA 77' }).waitFor();
    await isSound(stores);
    await shoot(stores, 'complaint');
    await stores.close();
  });

  it('a note, a picture and both values of what was put right stand on the record, with who said it', async () => {
    const setup = await open('/setup');
    const people = section(setup, 'People');
    await people.getByLabel('Name or initials').fill('Imke');
    await people.getByRole('button', { name: 'Add a name' }).click();
    await people.getByRole('button', { name: 'Imke acts on this screen from now on' }).click();
    await setup.getByRole('link', { name: 'Imke acts on this screen. Change it' }).waitFor();
    await isSound(setup);
    await shoot(setup, 'people');

    const id = screen.batch()?.id ?? '';
    await setup.goto(url(`/batches/review?id=${encodeURIComponent(id)}`));
    const said = section(setup, 'Said afterwards');
    await said.getByRole('button', { name: 'Add a note or a deviation' }).click();
    await said.getByLabel('What is to be known about this batch').fill('The jug had a crack.');
    await said.getByRole('button', { name: 'Keep it' }).click();
    await section(setup, 'What happened').getByText('Note: The jug had a crack.').waitFor();

    await said.getByRole('button', { name: 'Add a picture' }).click();
    const picture = await sharp({ create: { width: 900, height: 600, channels: 3, background: '#b0a080' } })
      .png()
      .toBuffer();
    await said.getByLabel('A picture (JPEG').setInputFiles({ name: 'top.png', mimeType: 'image/png', buffer: Buffer.from('no picture') });
    await said.getByLabel('In a few words').fill('after a day');
    await said.getByRole('button', { name: 'Keep it' }).click();
    await said.getByText('That is no picture.').waitFor();
    await said.getByLabel('A picture (JPEG').setInputFiles({ name: 'top.png', mimeType: 'image/png', buffer: picture });
    await said.getByRole('button', { name: 'Keep it' }).click();
    await said.getByAltText('after a day').waitFor();
    await expect.poll(() => said.getByAltText('after a day').evaluate((one) => (one as HTMLImageElement).naturalWidth)).toBe(900);

    await said.getByRole('button', { name: 'Put something right' }).click();
    await said.getByLabel('What is wrong').selectOption({ label: 'weight of Coconut oil, 280.0 g' });
    await said.getByLabel('What is right, g').fill('plenty');
    await said.getByLabel('Why', { exact: true }).fill('read from the wrong line');
    await said.getByRole('button', { name: 'Keep it' }).click();
    await said.getByText('A number belongs here.').waitFor();
    await said.getByLabel('What is right, g').fill('268.5');
    await said.getByRole('button', { name: 'Keep it' }).click();
    const row = said.locator('tr[data-amended="weight"]');
    await row.waitFor();
    expect(await row.locator('s').innerText()).toBe('280.0 g');
    expect(await row.innerText()).toMatch(/268\.5 g[\s\S]*read from the wrong line[\s\S]*Imke/);
    await isSound(setup);
    await shoot(setup, 'afterwards');
    await section(setup, 'What happened').getByText('Put right: Coconut oil 268.5 g, not 280.0 g.').waitFor();
    const review = await get<BatchPage>(`/api/batches/${id}`);
    expect(review.lines.find(({ material }) => material === 'Coconut oil')?.contributions[0]).toMatchObject({
      net: 280_000,
      amended: 268_500,
    });
    expect(review.cleaned).toEqual(['the bench is wiped']);
    await setup.close();
  });
});
