import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Locator, Page } from 'playwright-core';
import type { ShelfDocument, ShelfList } from '#lib/protocol/shelf';
import type { Lot, Mould, Preparation, WorkshopVessel } from '#lib/work/formula/index';
import { freePort, screenAt, serverProcess, tempFolder } from '#tests/support/server-rig';
import type { ServerProcess } from '#tests/support/server-rig';
import { isSound, section } from './support/on-paper';
import { launch, SIZES } from './support/theatre';
import type { Size } from './support/theatre';

/** A server of its own with the production pages, in practice, and a browser on it. */
const folder = tempFolder();
let browser: Browser;
let server: ServerProcess;
let port = 0;
const url = (path: string): string => `http://localhost:${port}${path}`;
const get = async <T>(path: string): Promise<T> => (await fetch(url(path))).json() as Promise<T>;
const open = async (path: string, size: Size = 'wide'): Promise<Page> => {
  const page = await browser.newPage({ viewport: SIZES[size], locale: 'en-GB' });
  await page.goto(url(path));
  await page.waitForSelector('h1');
  return page;
};
const documents = async <T>(noun: string): Promise<readonly T[]> =>
  (await get<ShelfList>(`/api/shelf/${noun}`)).items.map(({ document }) => document as unknown as T);
const press = (where: Page | Locator, name: string): Promise<void> => where.getByRole('button', { name, exact: true }).click();
/** What stands beside a field, as it is read with it. */
const beside = async (page: Page, field: Locator): Promise<string> => {
  const id = await field.getAttribute('aria-describedby');
  return id === null ? '' : page.locator(`[id="${id}"]`).innerText();
};

beforeAll(async () => {
  port = await freePort();
  server = await serverProcess(['--port', String(port), '--data', folder.path]);
  browser = await launch();
});
afterAll(async () => {
  await browser?.close();
  if (server?.child.exitCode === null && server.child.signalCode === null) await server.end('SIGTERM');
  folder.remove();
});

describe('lots', () => {
  it('takes a lot with its certificate and a file, and has them after a reload; put away, it comes back', async () => {
    const page = await open('/stores');
    const lots = section(page, 'Lots');
    await press(lots, 'Add a lot');
    await lots.getByLabel('Mark on the container').fill('CO 26-14');
    await lots.getByLabel('Material').selectOption('Coconut oil');
    await lots.getByLabel('Its date, year-month-day').fill('2026-09-14');
    await lots.getByLabel('Supplier', { exact: true }).fill('Fellside Supplies');
    await lots.getByLabel('Saponification value, mg KOH/g').fill('256,5');
    await lots.getByLabel('Acid value, mg KOH/g').fill('0.2');
    await lots.locator('input[type="file"]').setInputFiles({
      name: 'co-26-14.txt',
      mimeType: 'text/plain',
      buffer: Buffer.from('Saponification value 256.5 mg KOH/g'),
    });
    await lots.getByRole('link', { name: 'co-26-14.txt' }).waitFor();
    await press(lots, 'Keep it');
    await lots.getByText('Kept: CO 26-14.').waitFor();

    const [lot] = await documents<Lot>('lot');
    expect(lot).toMatchObject({
      mark: 'CO 26-14',
      certificate: { date: '2026-09-14', supplier: 'Fellside Supplies', sv: { value: '256.5' }, acidValue: { value: '0.2' } },
      files: [{ name: 'co-26-14.txt', type: 'text/plain' }],
    });
    const kept = await fetch(url(`/api/files/${lot?.files[0]?.sha256 ?? ''}`));
    expect(await kept.text()).toBe('Saponification value 256.5 mg KOH/g');

    await page.reload();
    const row = page.locator(`tr[data-kept="${lot?.id}"]`);
    await row.waitFor();
    expect(await row.innerText()).toContain('SV 256.5');
    await press(row, 'Open CO 26-14');
    expect(await lots.getByLabel('Saponification value, mg KOH/g').inputValue()).toBe('256.5');
    expect(await lots.getByRole('link', { name: 'co-26-14.txt' }).count()).toBe(1);

    await press(lots, 'Put away');
    await lots.getByText('CO 26-14 is put away.').waitFor();
    await expect.poll(() => row.count()).toBe(0);
    await press(lots, 'Take it out again');
    await row.waitFor();
    const versions = (await get<ShelfDocument>(`/api/shelf/lot/${lot?.id}`)).versions.map(({ document }) => document);
    expect(versions).toEqual([lot, null, lot]);

    await press(row, 'Open CO 26-14');
    await press(lots, 'Two earlier versions');
    await lots.getByText('put away', { exact: true }).waitFor();
    await page.close();
  });

  it.each([
    ['-3', 'More than nothing belongs here.'],
    ['0', 'More than nothing belongs here.'],
    ['plenty', '“plenty” is no number.'],
    ['1300', 'At most 1000 belongs here.'],
  ])('a saponification value of %s is told beside the field, and nothing is lost', async (typed, says) => {
    const before = await documents<Lot>('lot');
    const page = await open('/stores');
    const lots = section(page, 'Lots');
    await press(lots, 'Add a lot');
    await lots.getByLabel('Mark on the container').fill('OL 26-90');
    await lots.getByLabel('Material').selectOption('Olive oil');
    const field = lots.getByLabel('Saponification value, mg KOH/g');
    await field.fill(typed);
    await press(lots, 'Keep it');
    await lots.getByText('Not kept yet').waitFor();
    expect(await field.getAttribute('aria-invalid')).toBe('true');
    expect(await beside(page, field)).toBe(says);
    expect(await beside(page, lots.getByLabel('Its date, year-month-day'))).toContain('A date as');
    // Closed and opened again, what was typed is still there.
    await press(lots, 'Close');
    await press(lots, 'Add a lot');
    expect(await field.inputValue()).toBe(typed);
    expect(await lots.getByLabel('Mark on the container').inputValue()).toBe('OL 26-90');
    expect(await documents<Lot>('lot')).toEqual(before);
    await page.close();
  });

  it('a purity of 130 % is told beside the field', async () => {
    const page = await open('/stores');
    const lots = section(page, 'Lots');
    await press(lots, 'Add a lot');
    await lots.getByLabel('Material').selectOption('Sodium hydroxide');
    const field = lots.getByLabel('Purity, %');
    await field.fill('130');
    expect(await beside(page, field)).toBe('At most 100 belongs here.');
    await page.close();
  });

  it('a certificate outside what the standard allows is kept once that very value is confirmed, and says so', async () => {
    const page = await open('/stores');
    const lots = section(page, 'Lots');
    await press(lots, 'Add a lot');
    await lots.getByLabel('Mark on the container').fill('CO 26-15');
    await lots.getByLabel('Material').selectOption('Coconut oil');
    await lots.getByLabel('Its date, year-month-day').fill('2026-09-15');
    await lots.getByLabel('Supplier', { exact: true }).fill('Fellside Supplies');
    const field = lots.getByLabel('Saponification value, mg KOH/g');
    const confirm = lots.getByLabel(/which its standard does not allow/);
    await field.fill('256');
    expect(await confirm.count()).toBe(0);
    await field.fill('190');
    expect(await beside(page, field)).toMatch(/The certificate says 190; its standard allows 2\d\d to 2\d\d\./);
    await press(lots, 'Keep it');
    await lots.getByText('Look at the paper again').waitFor();
    expect((await documents<Lot>('lot')).map(({ mark }) => mark)).not.toContain('CO 26-15');
    await confirm.selectOption({ label: 'it stands so on the paper: confirmed' });
    // Another value is another question.
    await field.fill('191');
    expect(await confirm.inputValue()).toBe('');
    await field.fill('190');
    await confirm.selectOption({ label: 'it stands so on the paper: confirmed' });
    expect(await beside(page, field)).toMatch(/Confirmed outside the standard’s range of 2\d\d to 2\d\d\./);
    await press(lots, 'Keep it');
    await lots.getByText('Kept: CO 26-15.').waitFor();
    const kept = (await documents<Lot>('lot')).find(({ mark }) => mark === 'CO 26-15');
    expect(kept?.certificate).toMatchObject({ sv: { value: '190' }, svConfirmed: '190' });
    await page.close();
  });

  it('what is typed outlives a reload, and what is put away is listed long after', async () => {
    const page = await open('/stores');
    const lots = section(page, 'Lots');
    await press(lots, 'Add a lot');
    await lots.getByLabel('Mark on the container').fill('WX 26-77');
    await lots.getByLabel('Material').selectOption('Olive oil');
    await page.reload();
    await lots.getByText('Begun on this screen and not kept yet:').waitFor();
    await press(lots, 'WX 26-77');
    expect(await lots.getByLabel('Mark on the container').inputValue()).toBe('WX 26-77');
    await press(lots, 'Keep it');
    await lots.getByText('Kept: WX 26-77.').waitFor();
    await press(lots, 'Open WX 26-77');
    await press(lots, 'Put away');
    await page.reload();
    await lots.getByRole('button', { name: /put away$/ }).click();
    const gone = lots.locator('tr[data-away]').filter({ hasText: 'WX 26-77' });
    await press(gone, 'Take it out again');
    await lots.locator('tr[data-kept]').filter({ hasText: 'WX 26-77' }).waitFor();
    await isSound(page);
    // An earlier version comes back as the next one.
    await press(lots, 'Open WX 26-77');
    await lots.getByLabel('Mark on the container').fill('WX 26-78');
    await press(lots, 'Keep the change');
    await press(lots, 'Open WX 26-78');
    await lots.getByRole('button', { name: /earlier versions$/ }).click();
    await press(lots, 'Bring back version 1');
    await lots.locator('tr[data-kept]').filter({ hasText: 'WX 26-77' }).waitFor();
    await page.close();
  });

  it('keeps what was typed when the bench machine refuses', async () => {
    const page = await open('/stores');
    const lots = section(page, 'Lots');
    await press(lots, 'Add a lot');
    await lots.getByLabel('Mark on the container').fill('SB 26-09');
    await lots.getByLabel('Material').selectOption('Shea butter, unrefined');
    await page.route('**/api/shelf/lot/*', (route) =>
      route.fulfill({ status: 500, json: { error: 'Something went wrong.', kept: 'What was committed is kept.', todo: 'Try again.' } }),
    );
    await press(lots, 'Keep it');
    await lots.getByText('Something went wrong.').waitFor();
    expect(await lots.getByLabel('Mark on the container').inputValue()).toBe('SB 26-09');
    await page.unroute('**/api/shelf/lot/*');
    await press(lots, 'Keep it');
    await lots.getByText('Kept: SB 26-09.').waitFor();
    await page.close();
  });
});

describe('a file that is not kept', () => {
  it.each([
    ['too large', { name: 'scan.png', mimeType: 'image/png', buffer: Buffer.alloc(8 * 1024 * 1024 + 1) }, 'scan.png is larger than 8 MB.'],
    ['of another kind', { name: 'all.zip', mimeType: 'application/zip', buffer: Buffer.from('PK') }, 'That is no kind of file'],
    ['empty', { name: 'none.txt', mimeType: 'text/plain', buffer: Buffer.alloc(0) }, 'The file is empty.'],
  ])('%s is told, and what was typed stays', async (_what, file, says) => {
    const page = await open('/stores');
    const lots = section(page, 'Lots');
    await press(lots, 'Add a lot');
    await lots.getByLabel('Mark on the container').fill('OL 26-91');
    await lots.locator('input[type="file"]').setInputFiles(file);
    await lots.getByRole('alert').getByText(says).waitFor();
    expect(await lots.getByLabel('Mark on the container').inputValue()).toBe('OL 26-91');
    expect(await lots.getByRole('link').count()).toBe(0);
    await page.close();
  });
});

describe('two screens', () => {
  it('the later one is told, loses nothing, and can begin again from the newest', async () => {
    const lot: Lot = { id: 'lot-two-screens', mark: 'CA 26-30', material: 'castor', certificate: null, files: [] };
    const put = (expected: number, document: Lot): Promise<Response> =>
      fetch(url(`/api/shelf/lot/${lot.id}`), {
        method: 'POST',
        headers: { 'content-type': 'application/json', origin: url('') },
        body: JSON.stringify({ expected, document, note: '' }),
      });
    expect((await put(0, lot)).status).toBe(200);
    const page = await open('/stores');
    const lots = section(page, 'Lots');
    await press(lots, 'Open CA 26-30');
    await lots.getByLabel('Mark on the container').fill('CA 26-31');
    expect((await put(1, { ...lot, mark: 'CA 26-32' })).status).toBe(200);
    await press(lots, 'Keep the change');
    await lots.getByText('It was changed somewhere else meanwhile.').waitFor();
    await lots.getByText('It was changed elsewhere since you began.').waitFor();
    expect(await lots.getByLabel('Mark on the container').inputValue()).toBe('CA 26-31');
    await press(lots, 'Begin again from the newest');
    expect(await lots.getByLabel('Mark on the container').inputValue()).toBe('CA 26-32');
    await page.close();
  });
});

describe('materials', () => {
  it('finds one by name and opens it to its figures with range, source and grade in words', async () => {
    const page = await open('/stores');
    const catalogue = section(page, 'Catalogue');
    await catalogue.getByLabel('Find by name').fill('coconut');
    await press(catalogue, 'Open Coconut oil');
    const figures = catalogue.getByRole('table', { name: 'Coconut oil', exact: true });
    const sv = figures.getByRole('row', { name: /saponification value/ });
    expect(await sv.innerText()).toMatch(/\d+(\.\d+)? mg KOH\/g\s+\d+–\d+\s+a standard\s+Codex/);
    expect(await catalogue.getByRole('table', { name: /Fatty acids/ }).innerText()).toContain('lauric');
    await catalogue.getByLabel('Find by name').fill('olive');
    expect(await catalogue.getByRole('row', { name: /^Olive oil/ }).innerText()).toContain('from memory, not looked up');
    await catalogue.getByLabel('Find by name').fill('no such thing');
    await catalogue.getByText('Nothing in the catalogue is called “no such thing”.').waitFor();
    await page.close();
  });

  it('takes the maker’s own material and a stock lye made of two', async () => {
    const page = await open('/stores');
    const own = section(page, 'Your own materials');
    await press(own, 'Add a material');
    await own.getByLabel('Name, as read aloud').fill('Alder smoke');
    await own.getByLabel('What it is').selectOption('fragrances');
    await own.getByLabel('Density, g/cm³').fill('0.97');
    await own.getByLabel('Vanillin, %').fill('130');
    await press(own, 'Keep it');
    expect(await beside(page, own.getByLabel('Vanillin, %'))).toBe('At most 100 belongs here.');
    await own.getByLabel('Vanillin, %').fill('1.2');
    await press(own, 'Keep it');
    await own.getByText('Kept: Alder smoke.').waitFor();

    const mixed = section(page, 'Preparations');
    await press(mixed, 'Add a preparation');
    await mixed.getByLabel('Name, as read aloud').fill('Summer fats');
    await mixed.getByLabel('Part 1', { exact: true }).selectOption('Olive oil');
    await mixed.getByLabel('Share of part 1, %').fill('60');
    await mixed.getByLabel('Part 2', { exact: true }).selectOption('Coconut oil');
    await mixed.getByLabel('Share of part 2, %').fill('30');
    await press(mixed, 'Keep it');
    expect(await beside(page, mixed.getByLabel('Share of part 1, %'))).toContain('come to 90 %, not to 100');
    await mixed.getByLabel('Share of part 2, %').fill('40');
    await press(mixed, 'Keep it');
    await mixed.getByText('Kept: Summer fats.').waitFor();
    const [kept] = await documents<Preparation>('preparation');
    expect(kept?.parts.map(({ material, percent }) => [material, percent])).toEqual([
      ['olive', '60'],
      ['coconut', '40'],
    ]);
    await page.close();
  });
});

describe('moulds, vessels and habits', () => {
  it('takes the water of a mould from the settled scale, works out what it holds, and has it after a reload', async () => {
    const screen = screenAt(port);
    await screen.greeted();
    await screen.lease('take');
    await screen.intent({ kind: 'start', plan: 'meadowsweet', lots: {} });
    const jug = Object.values(screen.batch()?.vessels ?? {}).find(({ plan }) => plan.use === 'liquid');
    await new Promise((done) => screen.socket.emit('scene', { act: 'set-down', vessel: jug?.plan.id ?? '', scale: 'main' }, done));
    await screen.frame(({ scales }) => scales.some(({ gross, motion }) => (gross ?? 0) > 50_000 && motion === 'stable'));
    await screen.lease('release');

    const page = await open('/setup');
    const moulds = section(page, 'Moulds');
    await press(moulds, 'Add a mould');
    await moulds.getByLabel('Its name').fill('shell moulds');
    await moulds.getByLabel('Shape').selectOption('by the water it holds');
    await moulds.getByLabel('Cavities', { exact: true }).fill('6');
    await moulds.getByLabel('Temperature of the water, °C').fill('20');
    await press(moulds, 'Take this as filled');
    const water = Number(await moulds.getByLabel('Mass of water it holds, all cavities').inputValue());
    expect(Math.abs(water - (jug?.plan.empty ?? 0) / 1000)).toBeLessThan(1);
    // Water at 20 °C: 998.2 kg/m³, ITS-90 density of water (Tanaka et al. 2001).
    const volume = Math.round(water / 0.9982);
    await moulds.getByRole('button', { name: new RegExp(`^${volume} ± \\d+ cm³ \\(k = 2\\)$`) }).click();
    await moulds.getByText('g of water ÷ its density at 20 °C').waitFor();
    await press(moulds, 'Keep it');
    await moulds.getByText('Kept: shell moulds.').waitFor();
    await page.reload();
    const row = moulds.getByRole('row', { name: /shell moulds/ });
    await row.waitFor();
    expect(await row.innerText()).toContain(`${volume} ±`);
    const [mould] = await documents<Mould>('mould');
    expect(mould?.shape).toEqual({ kind: 'water-fill', water: String(water), unit: 'g', celsius: '20', cavities: 6 });
    await page.close();
    screen.close();
  });

  it.each([
    ['-80', 'More than nothing belongs here.'],
    ['0', 'More than nothing belongs here.'],
    ['wide', '“wide” is no number.'],
  ])('a width of %s is told beside the field, and nothing is lost', async (typed, says) => {
    const page = await open('/setup');
    const moulds = section(page, 'Moulds');
    await press(moulds, 'Add a mould');
    await moulds.getByLabel('Its name').fill('loaf');
    await moulds.getByLabel('Length inside, mm').fill('240');
    await moulds.getByLabel('Depth filled, mm').fill('65');
    const field = moulds.getByLabel('Width inside, mm');
    await field.fill(typed);
    await press(moulds, 'Keep it');
    expect(await beside(page, field)).toBe(says);
    expect(await moulds.getByLabel('Length inside, mm').inputValue()).toBe('240');
    await field.fill('80');
    await moulds.getByRole('button', { name: /^1248 ± \d+ cm³ \(k = 2\)$/ }).waitFor();
    await page.close();
  });

  it('takes a vessel and how the maker works, and has both after a reload', async () => {
    const page = await open('/setup');
    const vessels = section(page, 'Vessels');
    await press(vessels, 'Add a vessel');
    await vessels.getByLabel('Name, as read out').fill('tall jug');
    await vessels.getByLabel('For', { exact: true }).selectOption('liquid and lye');
    await vessels.getByLabel('Of', { exact: true }).selectOption('aluminium');
    expect(await beside(page, vessels.getByLabel('Of', { exact: true }))).toContain('hydrogen');
    await vessels.getByLabel('Of', { exact: true }).selectOption('polypropylene (PP)');
    await vessels.getByLabel('Weighs empty, g').fill('-5');
    await press(vessels, 'Keep it');
    expect(await beside(page, vessels.getByLabel('Weighs empty, g'))).toBe('More than nothing belongs here.');
    await vessels.getByLabel('Weighs empty, g').fill('187,3');
    await vessels.getByLabel('Holds to the brim, mL').fill('1000');
    await press(vessels, 'Keep it');
    await vessels.getByText('Kept: tall jug.').waitFor();

    const habits = section(page, 'How you work');
    await habits.getByLabel('Lost in pouring, % of the batter').fill('130');
    await press(habits, 'Keep it');
    expect(await beside(page, habits.getByLabel('Lost in pouring, % of the batter'))).toBe('At most 50 belongs here.');
    await habits.getByLabel('Lost in pouring, % of the batter').fill('2');
    await habits.getByLabel('Usual superfat, %').fill('6');
    await press(habits, 'Keep it');
    await habits.getByText('Kept: how you work.').waitFor();
    await habits.getByText('2 % lost in pouring; superfat 6 %').waitFor();

    await page.reload();
    await vessels.getByRole('row', { name: /tall jug/ }).waitFor();
    await habits.getByText('2 % lost in pouring; superfat 6 %').waitFor();
    expect(await habits.getByLabel('Usual superfat, %').inputValue()).toBe('6');
    expect(await documents<WorkshopVessel>('vessel')).toMatchObject([{ name: 'tall jug', empty: 187_300, brimMl: 1000, use: 'liquid' }]);
    await page.close();
  });
});

describe('at every size', () => {
  it.each(Object.keys(SIZES) as Size[])('%s is sound, closed and opened', async (size) => {
    const stores = await open('/stores', size);
    await isSound(stores);
    await press(section(stores, 'Lots'), 'Add a lot');
    await section(stores, 'Lots').getByLabel('Material').selectOption('Coconut oil');
    await press(section(stores, 'Lots'), 'Keep it');
    await press(section(stores, 'Your own materials'), 'Add a material');
    await press(section(stores, 'Preparations'), 'Add a preparation');
    await section(stores, 'Catalogue').getByRole('button', { name: 'Open Olive oil', exact: true }).click();
    await isSound(stores);
    await stores.close();
    const setup = await open('/setup', size);
    await press(section(setup, 'Moulds'), 'Add a mould');
    await section(setup, 'Moulds').getByLabel('Shape').selectOption('by the water it holds');
    await press(section(setup, 'Vessels'), 'Add a vessel');
    await isSound(setup);
    await setup.close();
  });
});
