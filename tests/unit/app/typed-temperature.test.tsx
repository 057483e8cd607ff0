// @vitest-environment jsdom
import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { CuePhase } from '#lib/bench/cue';
import type { BatchState } from '#lib/work/batch/index';
import { SCENES } from '#tests/browser/support/fixtures';
import { started, type BatchRig } from '#tests/support/batch';
import { nameAll, twoParts } from '#tests/support/pouring';
import { liveStore } from '../../../app/_live/start';
import { controls } from '../../../app/bench/_parts/controls';
import { KeypadSheet } from '../../../app/bench/_parts/keypad';
import { sheetMessages } from '../../../app/bench/messages-sheets';
import { More } from '../../../app/bench/_parts/more';
import { PourSheet } from '../../../app/bench/_parts/pour-sheet';

vi.mock('next/navigation', () => ({ useRouter: () => ({ push: () => undefined }) }));

/** All weighed, the lye made, each mould with its pattern. */
const ready = (): BatchRig => {
  const rig = started(twoParts()).weighAll().makeLye();
  nameAll(rig);
  return rig;
};

const stands = (batch: BatchState, phase: CuePhase): void =>
  act(() => {
    const { frame, lease } = SCENES.temperatures();
    liveStore.setState({ batch, lease, frame: { ...frame, boot: 'b', n: 1, merged: 0, at: 1, cue: { ...frame.cue, phase } } });
  });

beforeEach(() => controls.setState({ sheet: 'none' }));
afterEach(() => {
  cleanup();
  liveStore.setState(liveStore.getInitialState(), true);
});

describe('a batch with planned moulds and no probe', () => {
  it.each(['temperatures', 'joining'] as const)('has its temperatures typed while the bench is at %s', (phase) => {
    stands(ready().now, phase);
    render(<More />);
    fireEvent.click(screen.getByRole('button', { name: /moulds/i }));
    expect(controls.getState().sheet).toBe('pour');
    cleanup();
    render(<PourSheet />);
    fireEvent.click(screen.getByRole('button', { name: /Temperature by hand/ }));
    expect(controls.getState().sheet).toBe('keypad');
    cleanup();
    render(<KeypadSheet />);
    for (const name of [/lye/i, /oils/i, /room/i]) screen.getByRole('button', { name });
  });

  it('is found again without the sheet it was left by, which would keep the pedal', () => {
    stands(ready().now, 'joining');
    controls.setState({ sheet: 'more' });
    render(<More />);
    fireEvent.click(screen.getByRole('button', { name: new RegExp(`^${sheetMessages.more.temperatures}`) }));
    expect(controls.getState().sheet).toBe('none');
  });

  it('has that of its batter typed at trace', () => {
    stands(ready().join().now, 'trace');
    render(<More />);
    fireEvent.click(screen.getByRole('button', { name: /by hand/i }));
    expect(controls.getState().sheet).toBe('keypad');
  });
});
