// @vitest-environment jsdom
import { act, cleanup, render } from '@testing-library/react';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { prefer } from '../../../app/_live/preferences';
import { act as press, controls } from '../../../app/bench/_parts/controls';
import { LocalCards } from '../../../app/bench/_parts/cards';

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
const shown = (): string | null | undefined => document.querySelector('output')?.textContent;

it('reads the page’s own cards aloud: what is asked, then each that the pedal steps to', () => {
  prefer({ voice: true, muted: false });
  controls.setState({ asking: { what: 'Which lot of olive oil?', how: 'Read it from the bag.' } });
  render(<LocalCards cards={CARDS} back={() => undefined} />);
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
  render(<LocalCards cards={CARDS} back={() => undefined} />);
  expect(shown()).toBe('');
  act(() => press('go-on', false));
  expect([shown(), say.mock.calls]).toEqual(['OL 26-01: use this one first.', []]);
});
