import { expect } from 'vitest';
import type { Locator, Page } from 'playwright-core';
import { axe, drawn } from './on-page';

export const section = (page: Page, name: string): Locator => page.getByRole('region', { name, exact: true });

/** Drawn, as wide as its window, and nothing for axe to find. */
export const isSound = async (page: Page): Promise<void> => {
  await drawn(page);
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBe(0);
  expect(await axe(page)).toEqual([]);
};
