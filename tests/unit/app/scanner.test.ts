import { describe, expect, it } from 'vitest';
import { createScanner } from '../../../app/_live/scanner';

const rig = () => {
  let at = 0;
  let waiting: { due: number; run: () => void }[] = [];
  const heard: string[] = [];
  const hand: string[] = [];
  const pass = (ms: number): void => {
    at += ms;
    const due = waiting.filter((one) => one.due <= at);
    waiting = waiting.filter((one) => one.due > at);
    for (const { run } of due) run();
  };
  const scanner = createScanner({
    now: () => at,
    after(ms, run) {
      const one = { due: at + ms, run };
      waiting.push(one);
      return () => void (waiting = waiting.filter((other) => other !== one));
    },
    onScan: (text) => void heard.push(text),
    onBurst: () => void hand.push('forgotten'),
    onHand: (key) => void hand.push(`late ${key}`),
  });
  /** Down and up; what reached the hands' keys is kept. */
  const key = (name: string, held: number, gap: number): void => {
    if (scanner.down(name) === 'pass') hand.push(`down ${name}`);
    pass(held);
    if (scanner.up(name) === 'pass') hand.push(`up ${name}`);
    pass(gap);
  };
  return { heard, hand, key, pass };
};

describe('a reader of barcodes beside a pedal', () => {
  it('takes a burst that ends with Enter as one text, and none of its keys acts as a hand’s', () => {
    const { heard, hand, key } = rig();
    for (const letter of ' sCO 26-07') key(letter, 2, 8);
    key('Enter', 2, 8);
    expect(heard).toEqual([' sCO 26-07']);
    // Only the first key's way down was heard, and is taken back.
    expect(hand).toEqual(['down  ', 'forgotten']);
  });

  it('leaves hands alone: single presses, quick presses, holds, and an Enter after typing', () => {
    const { heard, hand, key } = rig();
    key(' ', 120, 400);
    key('Enter', 90, 400);
    key('Enter', 2_100, 400);
    // A pedal that lets go at once is heard a moment later.
    key(' ', 10, 400);
    for (const letter of '4711') key(letter, 60, 90);
    key('Enter', 60, 400);
    expect(heard).toEqual([]);
    expect(hand.filter((one) => /Enter| {2}/.test(one))).toEqual([
      'down  ',
      'up  ',
      'down Enter',
      'up Enter',
      'down Enter',
      'up Enter',
      'down  ',
      'late  ',
      'down Enter',
      'up Enter',
    ]);
  });

  it('three quick letters are no barcode, and a burst that stops is forgotten', () => {
    const { heard, hand, key } = rig();
    for (const letter of 'ab1') key(letter, 2, 8);
    key('Enter', 2, 500);
    for (const letter of 'CO 26') key(letter, 2, 8);
    key('x', 40, 500);
    key('Enter', 80, 100);
    expect(heard).toEqual([]);
    expect(hand.filter((one) => one.endsWith('Enter'))).toEqual(['down Enter', 'up Enter', 'down Enter', 'up Enter']);
  });
});
