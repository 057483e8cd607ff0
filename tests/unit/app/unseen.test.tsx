// @vitest-environment jsdom
import { act, cleanup, renderHook } from '@testing-library/react';
import { afterEach, expect, it, vi } from 'vitest';
import type { CuePhase } from '#lib/bench/cue';
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

it('a weight about to be accepted by itself is called off, once, while a sheet hides the moment or has its back key', () => {
  renderHook(() => useNothingUnseen());
  shows('settling', 'correct');
  shows('offer', 'none');
  shows('offer', 'scene');
  shows('offer', 'correct', false);
  expect(wanted).toEqual([]);
  shows('offer', 'correct');
  shows('offer', 'correct');
  expect(wanted).toEqual([{ kind: 'press', key: 'back', hold: false }]);
  shows('ask', 'correct');
  shows('offer', 'none');
  shows('offer', 'first-aid');
  expect(wanted).toHaveLength(2);
});
