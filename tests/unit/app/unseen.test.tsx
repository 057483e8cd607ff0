// @vitest-environment jsdom
import { act, cleanup, renderHook } from '@testing-library/react';
import { afterEach, expect, it, vi } from 'vitest';
import type { CuePhase } from '#lib/bench/cue';
import { OFFER_MS } from '#lib/bench/conductor/offer';
import { SWALLOW_MS } from '#lib/bench/conductor/presses';
import { SCENES } from '#tests/browser/support/fixtures';
import { liveStore } from '../../../app/_live/start';
import { controls } from '../../../app/bench/_parts/controls';
import type { Sheet } from '../../../app/bench/_parts/controls';
import { useNothingUnseen } from '../../../app/bench/_parts/unseen';

const { wanted } = vi.hoisted(() => ({ wanted: [] as unknown[] }));
vi.mock('../../../app/_live/use', async (original) => ({
  ...(await original<object>()),
  live: () => ({ intend: (want: unknown) => void wanted.push(want) }),
}));

afterEach(() => {
  cleanup();
  vi.useRealTimers();
  wanted.length = 0;
  liveStore.setState(liveStore.getInitialState(), true);
});

const shows = (phase: CuePhase, sheet: Sheet, mine = true): void =>
  act(() => {
    const { frame } = SCENES.offer();
    controls.setState({ sheet });
    liveStore.setState({
      lease: { mine, holder: 'here', expiresIn: 1 } as never,
      frame: { ...frame, boot: 'b', n: 1, merged: 0, at: 1, cue: { ...frame.cue, phase } },
    });
  });

it('a weight about to be accepted by itself is called off while a sheet hides the moment or has its back key', () => {
  vi.useFakeTimers();
  renderHook(() => useNothingUnseen());
  const stand = (...how: Parameters<typeof shows>): number => {
    wanted.length = 0;
    shows(...how);
    act(() => void vi.advanceTimersByTime(SWALLOW_MS));
    // Whatever came by now was swallowed there.
    expect(wanted).toEqual([]);
    act(() => void vi.advanceTimersByTime(OFFER_MS / 2 - SWALLOW_MS));
    return wanted.length;
  };
  expect([stand('settling', 'correct'), stand('offer', 'none'), stand('offer', 'scene'), stand('offer', 'correct', false)]).toEqual([
    0, 0, 0, 0,
  ]);
  expect(stand('offer', 'correct')).toBe(1);
  expect(wanted).toEqual([{ kind: 'press', key: 'back', hold: false }]);
  expect([stand('ask', 'correct'), stand('offer', 'first-aid')]).toEqual([0, 1]);
});
