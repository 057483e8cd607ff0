// @vitest-environment jsdom
import { act, cleanup, render, screen } from '@testing-library/react';
import { afterEach, expect, it, vi } from 'vitest';
import { probe, SCENES } from '#tests/browser/support/fixtures';
import { liveStore } from '../../../app/_live/start';
import { Temperature } from '../../../app/bench/_parts/temperature';
import { ProbeSheet } from '../../../app/bench/_parts/probe-sheet';

afterEach(() => {
  cleanup();
  liveStore.setState(liveStore.getInitialState(), true);
});

/** The lye's probe reads 79.6 °C, its check in it. */
const reads = (correction: number | null): void =>
  act(() => {
    const { frame } = SCENES.idle();
    const probes = [probe('lye', 79.6, { correction })];
    liveStore.setState({ frame: { ...frame, probes, boot: 'b', n: 1, merged: 0, at: 1 } });
  });

it('a reading that its probe’s check moved says so, and no other does', () => {
  render(<Temperature use="lye" />);
  reads(400);
  expect(document.querySelector('[data-offset="lye"]')?.textContent).toContain('offset');
  reads(0);
  expect(document.querySelector('[data-offset]')).toBeNull();
  reads(null);
  expect(document.querySelector('[data-offset]')).toBeNull();
});

it('opens to what the probe shows, what its check adds, and what counts', () => {
  const open = vi.fn();
  render(<Temperature use="lye" onOpen={open} />);
  reads(-400);
  screen.getByRole('button').click();
  expect(open).toHaveBeenCalledOnce();
  render(<ProbeSheet use="lye" />);
  expect([...document.querySelectorAll('dd')].map(({ textContent }) => textContent)).toEqual(['80.0 °C', '−0.4 °C', '79.6 °C']);
});

it('says of a probe that was never checked that nobody looked, and adds nothing', () => {
  reads(null);
  render(<ProbeSheet use="lye" />);
  expect([...document.querySelectorAll('dd')].map(({ textContent }) => textContent)).toEqual(['79.6 °C', '79.6 °C']);
  expect(document.querySelector('dialog p')?.textContent).toContain('never held beside a reference');
});
