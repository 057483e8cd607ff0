// @vitest-environment jsdom
import { act, cleanup, render } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { act as press, controls } from '../../../app/bench/_parts/controls';
import { MOST_CARDS, PagesOfCards } from '../../../app/bench/_parts/pages-of-cards';

afterEach(cleanup);

const taken: string[] = [];
const back = (): void => void taken.push('back');
const draw = (count: number): void => {
  const cards = Array.from({ length: count }, (_none, at) => ({
    key: `plan ${at + 1}`,
    name: `plan ${at + 1}`,
    sub: '',
    take: () => void taken.push(`plan ${at + 1}`),
  }));
  render(<PagesOfCards cards={cards} more="More plans" pageWords={(page, of) => `page ${page} of ${of}`} back={back} />);
};
const shown = (): readonly string[] => [...document.querySelectorAll('[data-card]')].map((card) => card.getAttribute('data-card') ?? '');
/** By the pedal: steps to the last card there is, and holds. */
const takeLast = (): void =>
  act(() => {
    controls.setState({ selected: shown().length - 1 });
    press('go-on', true);
  });

describe('more plans than fit on the screen', () => {
  it('are all reached by the pedal, page after page and round', () => {
    draw(12);
    const seen = new Set<string>();
    for (let page = 0; page < 3; page += 1) {
      expect(shown().length).toBeLessThanOrEqual(MOST_CARDS);
      shown().forEach((card) => seen.add(card));
      takeLast();
    }
    for (let at = 1; at <= 12; at += 1) expect(seen).toContain(`plan ${at}`);
    expect(shown()[0]).toBe('plan 1');
    expect(document.body.textContent).toContain('More planspage 2 of 3');
    expect(taken).toEqual([]);
  });

  it('“back” turns to the page before, and from the first leaves', () => {
    draw(12);
    takeLast();
    expect(shown()[0]).toBe('plan 6');
    act(() => press('back', false));
    expect(shown()[0]).toBe('plan 1');
    act(() => press('back', false));
    expect(taken).toEqual(['back']);
  });

  it('that fit have no page to turn', () => {
    draw(MOST_CARDS);
    expect(shown()).toHaveLength(MOST_CARDS);
    expect(document.body.textContent).not.toContain('More plans');
  });
});
