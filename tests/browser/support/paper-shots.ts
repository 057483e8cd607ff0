import type { Browser, Page } from 'playwright-core';
import { drawn } from './on-page';
import type { PaperName } from './paper-scenes';
import { SIZES } from './theatre';
import type { Size, Theatre } from './theatre';

/** One picture of a page on paper: the state of the workshop, the address, and what is done there first. */
interface Take {
  readonly paper: PaperName;
  readonly path: string;
  readonly preferences?: Readonly<Record<string, unknown>>;
  readonly act?: (page: Page, theatre: Theatre) => Promise<unknown>;
  readonly print?: true;
}

const REVIEW = '/batches/review?id=';
const gone = async (page: Page, theatre: Theatre): Promise<unknown> => {
  await page.locator('table').first().waitFor();
  theatre.process.kill('SIGSTOP');
  return page.locator('main [role="alert"]').first().waitFor();
};
const press =
  (...names: readonly (string | RegExp)[]) =>
  async (page: Page): Promise<void> => {
    for (const name of names) await page.getByRole('button', { name }).first().click();
  };

export const TAKES: Readonly<Record<string, Take>> = {
  'today-empty': { paper: 'empty', path: '/' },
  'today-empty-real': { paper: 'empty-real', path: '/' },
  'today-weighing': { paper: 'weighing', path: '/' },
  'today-begun': { paper: 'begun', path: '/' },
  'today-weighed': { paper: 'weighed', path: '/' },
  'today-parked': { paper: 'parked', path: '/' },
  'today-resume': { paper: 'resume', path: '/' },
  'today-idle': { paper: 'idle', path: '/' },
  'today-watching': { paper: 'watching', path: '/' },
  'today-read-only': { paper: 'read-only', path: '/' },
  'today-asking': { paper: 'asking', path: '/' },
  'today-broken': { paper: 'broken', path: '/' },
  'today-gone': { paper: 'weighing', path: '/', act: gone },
  'today-pounds': { paper: 'weighing', path: '/', preferences: { mass: 'lb', temperature: 'F' } },
  'batches-empty': { paper: 'empty', path: '/batches' },
  batches: { paper: 'weighing', path: '/batches' },
  'batches-asking': { paper: 'asking', path: '/batches' },
  'batches-broken': { paper: 'broken', path: '/batches' },
  'batches-ounces': { paper: 'weighing', path: '/batches', preferences: { mass: 'oz', locale: 'de-DE' } },
  'review-eventful': { paper: 'idle', path: `${REVIEW}eventful` },
  'review-workings': { paper: 'idle', path: `${REVIEW}eventful`, act: press(/Workings of Coconut oil/) },
  'review-ounces': { paper: 'idle', path: `${REVIEW}eventful`, preferences: { mass: 'oz', temperature: 'F', locale: 'de-DE' } },
  'review-print': { paper: 'idle', path: `${REVIEW}eventful`, print: true },
  'review-plain': { paper: 'idle', path: `${REVIEW}plain` },
  'review-poured': { paper: 'idle', path: `${REVIEW}poured`, act: press(/superfat, how/) },
  'review-moulds': { paper: 'idle', path: `${REVIEW}poured`, act: press(/What is in 26-11/) },
  'review-midway': { paper: 'weighing', path: `${REVIEW}batch-1` },
  'review-begun': { paper: 'begun', path: `${REVIEW}batch-1` },
  'review-stopped': { paper: 'idle', path: `${REVIEW}stopped` },
  'review-asking': { paper: 'asking', path: `${REVIEW}eventful` },
  'review-broken': { paper: 'broken', path: `${REVIEW}eventful` },
  'review-none': { paper: 'idle', path: '/batches/review' },
  'review-gone': { paper: 'weighing', path: `${REVIEW}batch-1`, act: gone },
  setup: { paper: 'empty', path: '/setup' },
  'setup-real': { paper: 'one-lost', path: '/setup' },
  'setup-closer': { paper: 'one-lost', path: '/setup', act: press('Look closer at small scale') },
  'setup-none': { paper: 'empty-real', path: '/setup' },
  'setup-refused': { paper: 'one-lost', path: '/setup', act: press('Bind it') },
  'setup-asking': { paper: 'asking', path: '/setup' },
  'setup-broken': { paper: 'broken', path: '/setup' },
  'setup-gone': { paper: 'one-lost', path: '/setup', act: gone },
};

/** Everything that will come has come. */
const settled = async (page: Page, { paper, path }: Take): Promise<void> => {
  await page.waitForSelector('h1');
  if (paper === 'asking') await page.locator('output').first().waitFor();
  else if (paper === 'broken' || path === '/batches/review') await page.locator('main [role="alert"]').first().waitFor();
  else await page.locator('main section').first().waitFor();
  await drawn(page);
};

/** Draws the pages on paper, each in full length. */
export const shootPaper = async (
  browser: Browser,
  theatre: Theatre,
  wanted: (name: string) => boolean,
  save: (page: Page, name: string, size: Size) => Promise<void>,
): Promise<void> => {
  for (const size of Object.keys(SIZES) as Size[]) {
    for (const [name, take] of Object.entries(TAKES).filter(([one]) => wanted(one))) {
      await theatre.order({ do: 'paper', paper: take.paper });
      const page = await browser.newPage({ viewport: SIZES[size], locale: 'en-GB', timezoneId: 'Europe/Paris' });
      const { preferences } = take;
      if (preferences !== undefined)
        await page.addInitScript((kept) => localStorage.setItem('potwatch.preferences', kept), JSON.stringify(preferences));
      await page.clock.setFixedTime(Date.UTC(2026, 3, 14, 11, 34));
      await page.goto(theatre.url(take.path, 'localhost'));
      await settled(page, take);
      await take.act?.(page, theatre);
      if (take.print) await page.emulateMedia({ media: 'print' });
      await save(page, name, size);
      theatre.process.kill('SIGCONT');
      await page.close();
    }
  }
};
