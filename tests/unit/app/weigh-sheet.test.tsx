// @vitest-environment jsdom
import { act, cleanup, render } from '@testing-library/react';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Formula } from '#lib/work/formula/index';
import { entry, formula, planned, share, workshop } from '#tests/support/formula';
import { preferences } from '../../../app/_live/preferences';
import { LinesTable } from '../../../app/formulas/_parts/lines-table';
import { SheetHead } from '../../../app/formulas/_parts/sheet-head';
import { SheetProvider } from '../../../app/formulas/_parts/use-sheet';
import type { Sheet } from '../../../app/formulas/_parts/use-sheet';

const DAY = 86_400_000;
const OPENED = Date.UTC(2026, 2, 3, 12);

/** What head and lines of a sheet read of it. */
const sheet = (of: Formula, base: number, dirty: boolean): Sheet => {
  const plan = planned(of);
  const given: Partial<Sheet> = {
    formula: of,
    draft: { formula: of, base, past: [], future: [], field: null } as unknown as Sheet['draft'],
    plan,
    answer: plan,
    dirty,
    held: true,
    arrived: false,
    newer: null,
    clash: false,
    problem: null,
    workshop: { context: workshop() } as Sheet['workshop'],
    wrongAt: () => '',
    wrongIn: () => '',
    derivation: () => undefined,
    open: null,
    slips: 'test',
  };
  return given as Sheet;
};

const draw = (of: Formula, base: number, dirty: boolean): void => {
  const value = sheet(of, base, dirty);
  render(
    <SheetProvider value={value}>
      <SheetHead />
      {value.plan === null ? null : <LinesTable plan={value.plan} />}
    </SheetProvider>,
  );
};
const paragraphs = (): readonly string[] => [...document.querySelectorAll('p')].map(({ textContent }) => textContent);
const printedLine = (): string => paragraphs().find((text) => text.startsWith('Printed ')) ?? '';

afterEach(() => {
  cleanup();
  vi.useRealTimers();
  preferences.setState(preferences.getInitialState());
});

describe('a weigh sheet', () => {
  it.each([
    [0, true, 'not kept yet'],
    [2, false, 'version 2'],
    [2, true, 'version 2, changed, not kept'],
  ])('of base %i, changed %s, says at its head and in its line: %s', (base, dirty, words) => {
    draw(formula(), base, dirty);
    expect(printedLine()).toMatch(new RegExp(`; ${words}\\.$`));
    // A class of its own: paper leaves out what has none.
    const corner = [...document.querySelectorAll('p[class]')].map(({ textContent }) => textContent);
    expect(corner).toContain(words);
  });

  it('has the day on which it is printed, not that on which its page was opened', () => {
    preferences.setState({ locale: 'en-GB' });
    vi.useFakeTimers({ now: OPENED, toFake: ['Date'] });
    draw(formula(), 1, false);
    vi.setSystemTime(OPENED + 2 * DAY);
    // As the browser does it: the paper is drawn as soon as its listeners have answered.
    let line = '';
    act(() => {
      dispatchEvent(new Event('beforeprint'));
      line = printedLine();
    });
    expect(line).toBe('Printed 5 March 2026; version 1.');
  });

  it('in ounces shows a small target more finely than its tolerance', () => {
    preferences.setState({ locale: 'en-GB', mass: 'oz' });
    draw(formula({ entries: [...formula().entries, entry('clay', 'extra', 'green-clay', share('0.8'))] }), 1, false);
    const row = document.querySelector<HTMLElement>('tr[data-line="clay"]');
    const [target, tolerance] = [Number(row?.dataset['target']), Number(row?.dataset['tolerance'])];
    const shown = Number.parseFloat(row?.querySelectorAll('td')[1]?.textContent ?? '');
    expect(tolerance).toBeLessThan(150);
    expect(Math.abs(shown * 28_349.523 - target)).toBeLessThanOrEqual(tolerance / 4);
  });
});
