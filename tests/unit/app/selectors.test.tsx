// @vitest-environment jsdom
import { act, cleanup, render } from '@testing-library/react';
import { StrictMode } from 'react';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { as } from '#lib/units/id';
import { share } from '../../../app/_live/share';
import { see } from '../../../app/_live/selectors';
import { liveStore } from '../../../app/_live/start';
import { useDisplay, useLive } from '../../../app/_live/use';
import { prefer } from '../../../app/_live/preferences';
import { SCENES } from '#tests/browser/support/fixtures';
import { fold } from '../../../app/_live/fold';
import type { LiveFrame } from '#lib/protocol/live';

afterEach(() => {
  cleanup();
  liveStore.setState(liveStore.getInitialState(), true);
});

const play = (name: keyof typeof SCENES, n: number): void => {
  const { frame, entries, lease } = SCENES[name]();
  const whole: LiveFrame = structuredClone({ ...frame, boot: 'b', n, merged: 0, at: n });
  const older = liveStore.getState();
  // As the live lane writes: one write a frame, unchanged parts shared; the record only when it changed.
  liveStore.setState({ link: 'up', stale: false, lease, frame: share(older.frame, whole) });
  if (older.batch?.id !== entries[0]?.batch)
    liveStore.setState({
      batch: fold(
        null,
        entries.map((entry) => JSON.stringify(entry)),
      ).batch,
    });
};

function Restless() {
  useLive(({ frame }) => frame?.cue.cards.map(({ code }) => code));
  return null;
}

describe('B18: every selector in strict mode', () => {
  it.each(Object.entries(see))('%s draws when its value changes and not otherwise', (_name, select) => {
    const drawn = vi.fn();
    function Reader() {
      useLive<unknown>(select);
      drawn();
      return null;
    }
    render(
      <StrictMode>
        <Reader />
      </StrictMode>,
    );
    // Strict mode draws twice on mounting; a selector that makes a new value each time would never come to rest.
    expect(drawn).toHaveBeenCalledTimes(2);
    act(() => play('over-red', 1));
    const settled = drawn.mock.calls.length;
    expect(settled).toBeLessThanOrEqual(2 + 2 * 2);
    for (let n = 2; n < 40; n += 1) act(() => play('over-red', n));
    expect(drawn).toHaveBeenCalledTimes(settled);
  });

  it('would not come to rest with a selector that makes a new list each time', () => {
    const quiet = vi.spyOn(console, 'error').mockImplementation(() => {});
    render(
      <StrictMode>
        <Restless />
      </StrictMode>,
    );
    expect(() => act(() => play('over-red', 1))).toThrow(/Maximum update depth/);
    quiet.mockRestore();
  });

  it('the display changes only with the preference', () => {
    const drawn = vi.fn();
    function Reader() {
      useDisplay();
      drawn();
      return null;
    }
    render(
      <StrictMode>
        <Reader />
      </StrictMode>,
    );
    expect(drawn).toHaveBeenCalledTimes(2);
    act(() => prefer({ voice: false }));
    expect(drawn).toHaveBeenCalledTimes(2);
    act(() => prefer({ mass: 'oz' }));
    expect(drawn).toHaveBeenCalledTimes(4);
    act(() => prefer({ mass: 'g', voice: true }));
  });
});

it('the open line is the one the cue speaks of', () => {
  play('pouring', 1);
  expect(see.line(liveStore.getState())?.plan.id).toBe(as('olive'));
  expect(see.scale(liveStore.getState())?.role).toBe('main');
});

it('a code that was not taken is told until the screen may weigh', () => {
  const standing = { boot: 'b', bench: 'bench 1', realm: 'practice', role: 'watcher', screen: 's' } as const;
  const told = (change: object): boolean => {
    liveStore.setState({ standing, codeRefused: true, ...change });
    return see.codeRefused(liveStore.getState());
  };
  expect([told({}), told({ codeRefused: false }), told({ standing: { ...standing, role: 'maker' } })]).toEqual([true, false, false]);
});
