// @vitest-environment jsdom
import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { useEffect, useRef } from 'react';
import { afterEach, describe, expect, it } from 'vitest';
import { useKeptFocus } from '../../../app/bench/_parts/use-focus';
import { swallowing } from '../../../app/bench/_parts/use-hands';

afterEach(cleanup);

interface Shown {
  readonly cards?: readonly string[];
  readonly sheet?: string | null;
  readonly goOn?: string;
}

function Sheet({ name }: { readonly name: string }) {
  const own = useRef<HTMLDialogElement>(null);
  useEffect(() => own.current?.focus(), []);
  return (
    <dialog open ref={own} tabIndex={-1} aria-label={name}>
      <button type="button">in {name}</button>
    </dialog>
  );
}

const NO_CARDS: readonly string[] = [];

/** The rooms of the bench, as far as the focus goes from one to the other. */
function Bench({ cards = NO_CARDS, sheet = null, goOn = 'tap' }: Shown) {
  useKeptFocus();
  return (
    <main {...swallowing}>
      <section tabIndex={-1} aria-label="work">
        {cards.map((name) => (
          <button key={name} type="button" data-card={name}>
            {name}
          </button>
        ))}
      </section>
      {sheet === null ? null : <Sheet key={sheet} name={sheet} />}
      <div>
        <button type="button">More</button>
        <button key={goOn} type="button">
          Go on {goOn}
        </button>
      </div>
    </main>
  );
}

const bench = (shown: Shown) => {
  const { rerender } = render(<Bench {...shown} />);
  return async (next: Shown): Promise<void> => {
    await act(async () => rerender(<Bench {...next} />));
  };
};
const button = (name: string): HTMLElement => screen.getByRole('button', { name });
const focused = (): string | null | undefined => document.activeElement?.getAttribute('aria-label') ?? document.activeElement?.textContent;

describe('the keyboard’s focus', () => {
  it('stays with a target of the foot that is drawn anew, held instead of tapped', async () => {
    const show = bench({ goOn: 'tap' });
    button('Go on tap').focus();
    await show({ goOn: 'hold' });
    expect(focused()).toBe('Go on hold');
  });

  it('goes from a card to the room of the cards, never to another card that a second press would choose', async () => {
    const show = bench({ cards: ['one', 'two', 'three'] });
    button('two').focus();
    await show({ cards: ['one', 'three'] });
    expect(focused()).toBe('work');
    button('one').focus();
    await show({ cards: ['another'] });
    expect(focused()).toBe('work');
  });

  it('goes into a sheet, from there into the next, and back to what the first was opened by', async () => {
    const show = bench({});
    button('More').focus();
    await show({ sheet: 'what' });
    button('in what').focus();
    await show({ sheet: 'which' });
    expect(focused()).toBe('which');
    button('in which').focus();
    await show({});
    expect(focused()).toBe('More');
  });

  it('is left where somebody else has it', async () => {
    const show = bench({ cards: ['one'] });
    button('one').focus();
    button('More').focus();
    await show({ cards: [] });
    expect(focused()).toBe('More');
  });
});

it('a key that stays down presses a target once', () => {
  bench({});
  const goOn = button('Go on tap');
  // `false`: what the browser would do, press it again, was prevented.
  expect([false, true, true].map((repeat) => fireEvent.keyDown(goOn, { key: 'Enter', repeat }))).toEqual([true, false, false]);
});
