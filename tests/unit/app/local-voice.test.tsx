// @vitest-environment jsdom
import { act, cleanup, render } from '@testing-library/react';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { prefer } from '../../../app/_live/preferences';
import { act as press, controls } from '../../../app/bench/_parts/controls';
import { LocalCards } from '../../../app/bench/_parts/cards';
import { LocalVoice } from '../../../app/bench/_parts/local-voice';

const say = vi.hoisted(() => vi.fn());
vi.mock(import('../../../app/_live/use'), async (original) => ({
  ...(await original()),
  speaker: () => ({ voice: () => 'ready', say, hush: () => undefined, watch: () => () => undefined }),
}));

beforeEach(() => void say.mockClear());
afterEach(() => {
  cleanup();
  controls.setState({ asking: null });
});

const CARDS = [
  { key: 'a', name: 'OL 26-01', sub: 'use this one first', take: () => undefined },
  { key: 'b', name: 'No lot stated', sub: '', take: () => undefined },
];
const bench = (cards: typeof CARDS) => (
  <>
    <LocalCards cards={cards} back={() => undefined} />
    <LocalVoice />
  </>
);
const shown = (): string | null | undefined => document.querySelector('output')?.textContent;

it('reads the page’s own cards aloud: what is asked, then each that the pedal steps to', () => {
  prefer({ voice: true, muted: false });
  controls.setState({ asking: { what: 'Which lot of olive oil?', how: 'Read it from the bag.' } });
  render(bench(CARDS));
  act(() => press('go-on', false));
  act(() => press('go-on', false));
  act(() => press('back', false));
  const words = [
    'Which lot of olive oil? Read it from the bag.',
    'OL 26-01: use this one first.',
    'No lot stated.',
    'OL 26-01: use this one first.',
  ];
  expect(say.mock.calls).toEqual(words.map((sentence) => [sentence, 'en']));
  expect(shown()).toBe('OL 26-01: use this one first.');
});

it('with the voice off they stand in the live region alone', () => {
  prefer({ voice: false });
  render(bench(CARDS));
  expect(shown()).toBe('');
  act(() => press('go-on', false));
  expect([shown(), say.mock.calls]).toEqual(['OL 26-01: use this one first.', []]);
});

it('are said by a region that stays while one set of cards gives way to the next', () => {
  prefer({ voice: false });
  const { rerender } = render(bench(CARDS));
  const region = document.querySelector('output');
  act(() => press('go-on', false));
  rerender(bench([{ key: 'c', name: 'SH 26-06', sub: 'the only one', take: () => undefined }]));
  expect(shown()).toBe('');
  act(() => press('go-on', false));
  expect([document.querySelector('output'), shown()]).toEqual([region, 'SH 26-06: the only one.']);
});
