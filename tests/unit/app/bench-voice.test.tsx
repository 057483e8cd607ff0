// @vitest-environment jsdom
import { act, cleanup, render, renderHook } from '@testing-library/react';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { SCENES } from '#tests/browser/support/fixtures';
import { useAloud, useLateParts } from '../../../app/bench/_parts/late';
import { Voice } from '../../../app/bench/_parts/voice';
import { prefer } from '../../../app/_live/preferences';
import { liveStore } from '../../../app/_live/start';

const say = vi.hoisted(() => vi.fn());
vi.mock(import('../../../app/_live/use'), async (original) => ({
  ...(await original()),
  speaker: () => ({ voice: () => 'ready', say, hush: () => undefined, watch: () => () => undefined }),
}));

afterEach(() => {
  cleanup();
  liveStore.setState(liveStore.getInitialState(), true);
});

describe('the voice', () => {
  it('speaks English words as English, whatever marks a person writes numbers with', async () => {
    const { result } = renderHook(() => (useLateParts(), useAloud()));
    await vi.waitFor(() => expect(result.current).toBeDefined(), 15_000);
    prefer({ voice: true, muted: false, locale: 'de-DE' });
    const { frame } = SCENES['hydroxide-hold']();
    render(<Voice />);
    act(() => liveStore.setState({ frame: { ...frame, boot: 'b', n: 1, merged: 0, at: 1 } }));
    expect(say).toHaveBeenCalledExactlyOnceWith('Sodium hydroxide, 140.6 g. Hold to take it.', 'en');
    expect(document.querySelector('output')?.textContent).toBe('Sodium hydroxide, 140,6 g. Hold to take it.');
  });

  it('tells an accepted weight by the step of its own scale, whatever comes next', async () => {
    const { result } = renderHook(() => (useLateParts(), useAloud()));
    await vi.waitFor(() => expect(result.current).toBeDefined(), 15_000);
    prefer({ voice: true, muted: false, locale: 'en-GB' });
    const { frame } = SCENES['hydroxide-hold']();
    const accepted = { id: 9, code: 'accepted', params: { material: 'Green clay', net: 8_100, division: 10 } } as const;
    render(<Voice />);
    act(() => liveStore.setState({ frame: { ...frame, cue: { ...frame.cue, say: accepted }, boot: 'b', n: 1, merged: 0, at: 1 } }));
    expect(document.querySelector('output')?.textContent).toBe('Green clay accepted, 8.10 g.');
  });
});
