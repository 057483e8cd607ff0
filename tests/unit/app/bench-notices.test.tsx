// @vitest-environment jsdom
import { act, cleanup, render } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import type { SceneWhy } from '#hardware/practice/scene-types';
import type { LinkFailure } from '#lib/measure/instrument';
import type { LiveFrame } from '#lib/protocol/live';
import { SCENES, scale } from '#tests/browser/support/fixtures';
import { Truth } from '../../../app/bench/_parts/truth';
import { Notice } from '../../../app/bench/_parts/notice';
import { noticeMessages } from '../../../app/bench/messages-notices';
import { liveStore } from '../../../app/_live/start';

afterEach(() => {
  cleanup();
  liveStore.setState(liveStore.getInitialState(), true);
});

const WHYS: Readonly<Record<SceneWhy, true>> = {
  'hands-full': true,
  'pan-occupied': true,
  'pan-empty': true,
  'nothing-open': true,
  'nothing-left': true,
  'nothing-dry': true,
  full: true,
  'no-such-scale': true,
  unplugged: true,
  already: true,
  wait: true,
  'needs-person': true,
};

const said = (why: string): string | null | undefined => {
  act(() => liveStore.setState({ notice: { id: 1, code: 'scene-refused', params: { why } } }));
  return document.querySelector('[data-notice]')?.textContent;
};

const refused = (role: 'maker' | 'watcher'): string | null | undefined => {
  const standing = { boot: 'b', bench: 'bench', realm: 'practice', screen: 'me', role } as const;
  act(() => liveStore.setState({ standing, notice: { id: 2, code: 'not-in-control', params: {} } }));
  return document.querySelector('[data-notice]')?.textContent;
};

describe('why the practice bench did not', () => {
  it('is said for every reason it gives, each in its own words', () => {
    render(<Notice />);
    const words = Object.keys(WHYS).map(said);
    expect(new Set(words).size).toBe(words.length);
    expect(words).not.toContain(noticeMessages.notices['scene-refused']);
  });

  it('tells a screen elsewhere how it may lead, and one at the bench to take control', () => {
    render(<Notice />);
    expect(refused('maker')).toContain('Take control');
    expect(refused('watcher')).toContain('Open it with the code');
  });

  it('is put into a region that stands before its words: a screen reader hears nothing of one that comes with them', () => {
    render(<Notice />);
    const region = document.querySelector('output');
    expect(region?.textContent).toBe('');
    const words = said('wait');
    expect(document.querySelector('output')).toBe(region);
    expect(region?.textContent).toBe(words);
  });

  it('is not made up for a reason only a newer server knows', () => {
    render(<Notice />);
    expect(said('brand-new')).toBe(noticeMessages.notices['scene-refused']);
  });
});

const told = (change: Parameters<typeof scale>[0]): string | null | undefined => {
  const { frame } = SCENES['pouring']();
  act(() =>
    liveStore.setState({ link: 'up', stale: false, frame: { ...frame, scales: [scale(change)], boot: 'b', n: 1, merged: 0, at: 1 } }),
  );
  return document.querySelector('[data-fresh]')?.textContent;
};

it('whether a scale was checked is told of one whose weight stands, not of one that says nothing', () => {
  render(<Truth />);
  expect(told({ checked: false })).toMatch(/^unchecked big scale stable *0\.1 s$/);
  expect(told({ link: 'waiting', freshness: 'lost', gross: null, age: 9_000 })).toMatch(/not connected *9\.0 s$/);
});

describe('a scale whose port does not open', () => {
  const CASES: readonly (readonly [LinkFailure, string])[] = [
    ['busy', 'held by another program'],
    ['denied', 'no right to open it'],
    ['missing', 'not plugged in'],
  ];

  it.each(CASES)('%s: is told apart from the others', (failure, words) => {
    const lost = scale({ link: 'waiting', failure, freshness: 'lost', gross: null });
    const { frame } = SCENES['no-weight']();
    const whole: LiveFrame = { ...frame, scales: [lost], boot: 'b', n: 1, merged: 0, at: 1 };
    liveStore.setState({ link: 'up', stale: false, frame: whole });
    render(<Truth />);
    expect(document.querySelector('[data-fresh="lost"]')?.textContent).toContain(`big scale ${words}`);
  });
});
