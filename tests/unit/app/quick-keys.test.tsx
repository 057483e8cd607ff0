// @vitest-environment jsdom
import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { HoldPress, Press } from '../../../app/_ui/press';
import { holdWords } from '../../../app/bench/_parts/controls';
import { listenForScans } from '../../../app/bench/_parts/scan';
import { useKeys } from '../../../app/bench/_parts/use-hands';

const did: string[] = [];
const says = (what: string) => (): void => void did.push(what);
const pedal = vi.hoisted(() => vi.fn());
vi.mock(import('../../../app/bench/_parts/controls'), async (original) => ({ ...(await original()), act: pedal }));

function Bench() {
  useKeys(pedal);
  return (
    <>
      <Press name="Close" onTap={says('closed')} />
      <HoldPress name="Take it" words={holdWords} onHeld={says('held')} onTap={says('tapped')} />
    </>
  );
}

let stop = (): void => undefined;
beforeEach(() => {
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'performance', 'Date'] });
  did.splice(0);
  pedal.mockClear();
  stop = listenForScans();
  render(<Bench />);
});
afterEach(() => {
  stop();
  cleanup();
  vi.useRealTimers();
});

/** Focused by the keyboard: the page of these tests does not know how its focus came about. */
const focused = (name: string): HTMLElement => {
  const target = screen.getByRole('button', { name: new RegExp(`^${name}`) });
  target.focus();
  vi.spyOn(target, 'matches').mockImplementation((wanted) => wanted.includes('button:focus-visible'));
  return target;
};
const wait = (ms: number): void => act(() => void vi.advanceTimersByTime(ms));
/** Down and up within so many milliseconds, and what a browser adds of itself on a key that was let go. */
const tap = (target: HTMLElement, ms: number, key = ' '): void => {
  fireEvent.keyDown(target, { key });
  wait(ms);
  if (fireEvent.keyUp(target, { key }) && key === ' ') fireEvent.click(target, { detail: 0 });
  wait(100);
};

describe('a key let go quicker than a hand does, as a switch or a reader of the screen presses it', () => {
  it('presses the target that has the focus, and nothing else goes on', () => {
    const close = focused('Close');
    tap(close, 5);
    tap(close, 90);
    expect(did).toEqual(['closed', 'closed']);
    expect(pedal).not.toHaveBeenCalled();
  });

  it('is no half of a hold: two of them seconds apart are two taps', () => {
    const target = focused('Take it');
    tap(target, 5);
    wait(2_500);
    tap(target, 5);
    expect(did).toEqual(['tapped', 'tapped']);
    expect(target.dataset['hold']).toBe('rest');
  });

  it('that begins a barcode leaves no hold behind', () => {
    const target = focused('Take it');
    for (const letter of ' CO 26') {
      fireEvent.keyDown(target, { key: letter });
      wait(2);
      fireEvent.keyUp(target, { key: letter });
      wait(8);
    }
    expect(target.dataset['hold']).toBe('rest');
    wait(2_500);
    expect(did).toEqual([]);
  });

  it('goes to the bench where nothing has the focus', () => {
    fireEvent.keyDown(document.body, { key: ' ' });
    wait(5);
    fireEvent.keyUp(document.body, { key: ' ' });
    wait(100);
    expect(pedal.mock.calls).toEqual([['go-on', false]]);
  });
});
