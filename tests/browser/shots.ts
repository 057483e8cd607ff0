/**
 * Draws every state of the bench, and of the pages on paper, at the three sizes into tests/browser/shots, to be looked at; never compared
 * by pixels.
 * `npx tsx tests/browser/shots.ts [part of a name] [--png]`, after a build.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { SCENES } from './support/fixtures';
import type { SceneName } from './support/fixtures';
import { shootPaper } from './support/paper-shots';
import type { Page } from 'playwright-core';
import { launch, openBench, openTheatre, SIZES } from './support/theatre';
import type { Size, Theatre } from './support/theatre';

const folder = join(import.meta.dirname, 'shots');
const png = process.argv.includes('--png');
const only = process.argv.slice(2).find((word) => word !== '--png') ?? '';

/** Pictures that take more than a scene: a sheet opened, a server gone, another page. */
interface Take {
  readonly scene: SceneName;
  readonly path?: string;
  readonly preferences?: Readonly<Record<string, unknown>>;
  readonly act?: (page: Page, theatre: Theatre) => Promise<void>;
}
const more =
  (...names: readonly string[]) =>
  async (page: Page): Promise<void> => {
    for (const name of ['More', ...names]) {
      // A dialog swallows the next press for 600 ms: wait until it takes one.
      await page.waitForTimeout(650);
      await page.getByRole('button', { name, exact: true }).first().click();
    }
  };
const TAKES: Readonly<Record<string, Take>> = {
  more: { scene: 'pouring', act: more() },
  'pot-sheet': {
    scene: 'pot',
    act: async (page) => {
      await page.waitForTimeout(650);
      await page.getByRole('button', { name: /^superfat/ }).click();
    },
  },
  keypad: {
    scene: 'no-weight',
    act: async (page) => {
      await more('By hand')(page);
      await page.waitForTimeout(650);
      for (const key of ['2', '9', '2', '.', '6']) await page.getByRole('button', { name: key, exact: true }).click();
      await page.getByRole('button', { name: 'Read it back' }).click();
    },
  },
  'keypad-ambiguous': {
    scene: 'no-weight',
    act: async (page) => {
      await more('By hand')(page);
      await page.waitForTimeout(650);
      for (const key of ['1', '.', '2', '5', '0']) await page.getByRole('button', { name: key, exact: true }).click();
      await page.getByRole('button', { name: 'Read it back' }).click();
    },
  },
  'keypad-pounds': { scene: 'no-weight', preferences: { mass: 'lb' }, act: more('By hand') },
  settings: { scene: 'pouring', act: more('This screen') },
  scene: { scene: 'ready', act: more('Practice scene') },
  'first-aid': {
    scene: 'hydroxide-pouring',
    act: async (page) => (await page.waitForTimeout(650), page.getByRole('button', { name: 'First aid' }).click()),
  },
  'cross-out': { scene: 'pouring', act: more('Cross out', 'undone') },
  'move-from': { scene: 'hydroxide-pouring', act: more('Move out') },
  'move-where': { scene: 'hydroxide-pouring', act: more('Move out', 'lye jug 281.4 g') },
  'move-much': { scene: 'hydroxide-pouring', act: more('Move out', 'lye jug 281.4 g', 'soda cup empty') },
  'move-part': {
    scene: 'hydroxide-pouring',
    act: more('Move out', 'lye jug 281.4 g', 'soda cup empty', 'Only a part type how much'),
  },
  wrong: { scene: 'pouring', act: more('Wrong, or lost') },
  'wrong-jug': { scene: 'pouring', act: more('Wrong, or lost', 'Still in its jug forgotten, found now') },
  'parts-and-moulds': { scene: 'mould-by-turns', act: more('Parts and moulds') },
  'one-mould': { scene: 'mould-by-turns', act: more('Parts and moulds', '26-11/2 Tray of six drop swirl, to do') },
  abandon: { scene: 'pouring', act: more('Stop the batch') },
  lots: { scene: 'idle', act: async (page) => (await page.waitForTimeout(650), page.getByRole('button', { name: /Alder/ }).click()) },
  ounces: { scene: 'pouring', preferences: { mass: 'oz', temperature: 'F', locale: 'de-DE' } },
  pounds: { scene: 'pouring', preferences: { mass: 'lb' } },
  lost: {
    scene: 'pouring',
    act: async (page, theatre) => {
      theatre.process.kill('SIGSTOP');
      await page.waitForSelector('main[data-shape="lost"]');
    },
  },
  temperatures: { scene: 'temperatures', path: '/bench/temperatures', act: (page) => page.waitForTimeout(3_500) },
  'temperatures-near': { scene: 'joining', path: '/bench/temperatures', act: (page) => page.waitForTimeout(3_500) },
};

const drawn = (page: Page): Promise<unknown> =>
  page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(null)))));
/** As small as it stays readable: pictures are kept beside the code. Those in the README are PNGs of one screen, which every viewer shows. */
const README: ReadonlySet<string> = new Set(['bench-pouring-1280', 'paper-review-eventful-1280']);
const save = async (page: Page, name: string, size: Size, light: 'bench' | 'paper' = 'bench'): Promise<void> => {
  const file = `${light}-${name}-${SIZES[size].width}`;
  if (png || README.has(file)) await page.screenshot({ path: join(folder, `${file}.png`), fullPage: png && light === 'paper' });
  if (png) return;
  const cdp = await page.context().newCDPSession(page);
  const { cssContentSize } = await cdp.send('Page.getLayoutMetrics');
  const whole = light === 'paper' ? { captureBeyondViewport: true, clip: { ...cssContentSize, scale: 1 } } : {};
  const { data } = await cdp.send('Page.captureScreenshot', { format: 'webp', quality: light === 'paper' ? 40 : 70, ...whole });
  writeFileSync(join(folder, `${file}.webp`), Buffer.from(data, 'base64'));
  await cdp.detach();
};

mkdirSync(folder, { recursive: true });
const theatre = await openTheatre();
const browser = await launch();
try {
  for (const size of Object.keys(SIZES) as Size[]) {
    const { page, context } = await openBench(browser, theatre, { size });
    for (const name of (Object.keys(SCENES) as SceneName[]).filter((one) => one.includes(only))) {
      await theatre.order({ do: 'play', scene: name });
      await page.waitForSelector(`main[data-phase="${SCENES[name]().frame.cue.phase}"]`);
      await drawn(page);
      await save(page, name, size);
    }
    await context.close();
    for (const [name, take] of Object.entries(TAKES).filter(([one]) => `act-${one}`.includes(only))) {
      await theatre.order({ do: 'play', scene: take.scene });
      const opened = await openBench(browser, theatre, {
        size,
        path: take.path ?? '/bench',
        ...(take.preferences === undefined ? {} : { preferences: take.preferences }),
      });
      await take.act?.(opened.page, theatre);
      await drawn(opened.page);
      await save(opened.page, `act-${name}`, size);
      theatre.process.kill('SIGCONT');
      await opened.context.close();
    }
  }
  await shootPaper(
    browser,
    theatre,
    (name) => `paper-${name}`.includes(only),
    (page, name, size) => save(page, name, size, 'paper'),
  );
} finally {
  await browser.close();
  await theatre.close();
}
