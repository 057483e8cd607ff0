import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** What axe finds on the page now, as short lines; every rule it has. */
export const axe = async (page: Page, within: string | null = null): Promise<readonly string[]> => {
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(axeSource);
  return page.evaluate(async (part) => {
    const { axe } = globalThis as unknown as {
      axe: {
        run: (
          root: Document | string,
        ) => Promise<{ violations: { id: string; help: string; nodes: { html: string; failureSummary: string }[] }[] }>;
      };
    };
    const { violations } = await axe.run(part ?? document);
    return violations.flatMap(({ id, help, nodes }) =>
      nodes.map(({ html, failureSummary }) => `${id}: ${help}: ${html.slice(0, 160)} ${failureSummary.slice(0, 200)}`),
    );
  }, within);
};

/** Everything drawn, and one turn of the loop after it. */
export const drawn = (page: Page): Promise<unknown> =>
  page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done)))));

/** Sums layout shifts from before the first script on, with what moved. */
export const watchShifts = (page: Page): Promise<unknown> =>
  page.addInitScript(() => {
    const shifts: string[] = [];
    Object.assign(globalThis, { shifts });
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) {
        const { value, sources } = entry as unknown as { value: number; sources: { node: Element | null }[] };
        const what = sources.map(({ node }) => `${node?.nodeName ?? ''}.${node instanceof Element ? node.className : ''}`).join(' ');
        if (value > 0) shifts.push(`${value.toFixed(5)} ${document.querySelector('main')?.dataset['phase']} ${what}`);
      }
    }).observe({ type: 'layout-shift', buffered: true });
  });
export const shifts = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => (globalThis as unknown as { shifts: string[] }).shifts);

/** Pixels the page is larger than its window, either way. */
export const overflow = (page: Page): Promise<readonly [number, number]> =>
  page.evaluate(() => {
    const { scrollWidth, scrollHeight } = document.documentElement;
    return [scrollWidth - innerWidth, scrollHeight - innerHeight] as const;
  });

/** Targets smaller than 72 px, or reaching out of the window. */
export const badTargets = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll('button')].flatMap((button) => {
      // What is not drawn is no target.
      if (!button.checkVisibility()) return [];
      const { left, top, right, bottom, width, height } = button.getBoundingClientRect();
      const small = width < 71.9 || height < 71.9;
      const out = left < 0 || top < 0 || right > innerWidth + 0.5 || bottom > innerHeight + 0.5;
      return small || out
        ? [`${button.textContent} ${Math.round(width)}x${Math.round(height)} at ${Math.round(left)},${Math.round(top)}`]
        : [];
    }),
  );

/** What keeps first aid from being one tap away: not there, too small, out of the window, or under something else at its middle. */
export const firstAidFaults = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => {
    const found = [...document.querySelectorAll('button')].filter(
      (button) => button.textContent === 'First aid' && button.checkVisibility({ visibilityProperty: true, opacityProperty: true }),
    );
    const [press, ...more] = found;
    if (press === undefined) return ['not there'];
    const { left, top, right, bottom, width, height } = press.getBoundingClientRect();
    const hit = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
    return [
      ...(more.length > 0 ? ['twice'] : []),
      ...(width < 71.9 || height < 71.9 ? [`${width}x${height}`] : []),
      ...(left < 0 || top < 0 || right > innerWidth || bottom > innerHeight ? ['out of the window'] : []),
      ...(press.contains(hit) ? [] : [`under ${hit?.outerHTML.slice(0, 120) ?? 'nothing'}`]),
      ...(press.ariaDisabled === 'true' ? ['cannot be pressed'] : []),
    ];
  });

/** Cards whose words are cut, or run over the track of their hold: what to do, what comes of it, and that it is recommended, and why. */
export const cutWords = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll('[data-card]')].flatMap((card) => {
      const inside = card.querySelector('[class*="words"]')?.getBoundingClientRect();
      if (inside === undefined) return [];
      const track = card.querySelector('[class*="track"]')?.getBoundingClientRect().top ?? Infinity;
      return [...card.querySelectorAll('b, [class*="words"] > span')].flatMap((part) => {
        const range = document.createRange();
        range.selectNodeContents(part);
        const { right, bottom } = range.getBoundingClientRect();
        return right > inside.right + 8 || bottom > Math.min(inside.bottom + 4, track + 2) ? [part.textContent ?? ''] : [];
      });
    }),
  );

/** Notes when an attribute of the screen first has a value, on the page's own clock; `took` reads it. */
export const stampWhen = (page: Page, selector: string): Promise<void> =>
  page.evaluate((wanted) => {
    const stamp = globalThis as unknown as { stamped: number | null };
    stamp.stamped = document.querySelector(wanted) === null ? null : Date.now();
    if (stamp.stamped !== null) return;
    const observer = new MutationObserver(() => {
      if (document.querySelector(wanted) === null) return;
      stamp.stamped = Date.now();
      observer.disconnect();
    });
    observer.observe(document.body, { attributes: true, childList: true, subtree: true });
  }, selector);
export const stamped = (page: Page): Promise<number | null> =>
  page.evaluate(() => (globalThis as unknown as { stamped: number | null }).stamped);

/** Until when the screen swallows what comes right after a change, on the page's clock: another figure after every change. */
const deafUntil = (page: Page): Promise<string> => page.evaluate(() => document.documentElement.dataset['deaf'] ?? '0');

/**
 * Past the 600 ms in which the screen swallows what comes right after a change. What is on its way has no event of its own: it gets a moment
 * to arrive, and the page then says itself when it hears again, however late on a busy machine that is.
 */
export const afterQuiet = async (page: Page): Promise<void> => {
  await page.waitForTimeout(700);
  await hears(page);
};

/** When the page hears again: a press before would be swallowed. */
export const hears = async (page: Page): Promise<void> => {
  await page.waitForFunction(() => performance.now() >= Number(document.documentElement.dataset['deaf'] ?? 0));
};

/** How long a press that counts may take to be answered before it is looked at whether the screen swallowed it. */
export const ANSWERED_MS = 6_000;

/**
 * Does something at the bench until it is answered. A press that the screen swallowed, because a frame was late right then, or that the bench
 * had gone on from, is made again; any other that stays without an answer is an error.
 * @param answer Begins to wait for the answer; made anew for each press.
 */
export const heeded = async <T>(page: Page, act: () => Promise<unknown>, answer: () => Promise<T>): Promise<T> => {
  for (;;) {
    await hears(page);
    const before = await deafUntil(page);
    const answered = answer().then((value) => ({ value }));
    // Of a press that is made again nobody asks any more.
    answered.catch(() => undefined);
    await act();
    let timer: NodeJS.Timeout | undefined;
    const late = new Promise<null>((resolve) => (timer = setTimeout(() => resolve(null), ANSWERED_MS)));
    const found = await Promise.race([answered, late]);
    clearTimeout(timer);
    if (found !== null) return found.value;
    // The bench had gone on when it arrived, and says so of the newest press.
    if ((await page.locator('[data-notice="moved-on"]').count()) > 0) continue;
    if ((await deafUntil(page)) === before)
      throw new Error(`a press that counted has had no answer: ${await page.locator('main').innerText()}`);
  }
};
