// @vitest-environment jsdom
import { cleanup, render, screen } from '@testing-library/react';
import { afterEach, expect, it, vi } from 'vitest';
import { useKeys } from '../../../app/bench/_parts/use-hands';

afterEach(cleanup);

const pressed: string[] = [];
const onPress = (key: string): void => void pressed.push(key);
function Bench() {
  useKeys(onPress);
  return <button type="button">More</button>;
}

it('a pedal goes on while a button has the keyboard’s focus; Enter and Space stay the button’s', () => {
  render(<Bench />);
  const more = screen.getByRole('button');
  more.focus();
  // The page of these tests does not know how its focus came about.
  vi.spyOn(more, 'matches').mockImplementation((wanted) => wanted.includes('button:focus-visible'));
  for (const key of ['PageDown', 'ArrowRight', 'Enter', ' '])
    for (const kind of ['keydown', 'keyup']) window.dispatchEvent(new KeyboardEvent(kind, { key }));
  expect(pressed).toEqual(['go-on', 'go-on']);
});
