import { describe, expect, it } from 'vitest';
import type { Show } from '../../../app/bench/messages';
import { limitOf } from '../../../app/bench/messages';
import { unbroken } from '../../../app/bench/_parts/words';
import { sayText } from '../../../app/bench/messages-codes';

const show: Show = { mass: (mg) => `${mg / 1000} g`, temperature: String, difference: String, share: String };

describe('what is read aloud', () => {
  it('ends a question with its mark alone', () => {
    expect(sayText('ask', { reason: 'step-down', net: 249_600 }, show)).toBe('It dropped. Was something taken out? 249.6 g: is it right?');
    expect(sayText('ask', { reason: 'gap', net: 1_000 }, show)).toBe('The scale was silent while it changed. 1 g: is it right?');
  });

  it('tells once all is weighed whether lye and oils may be joined', () => {
    const [waits, ready] = [0, 1].map((one) => sayText('all-weighed', { ready: one }, show));
    expect(waits).toContain('Do not join');
    expect(ready).toContain('may be joined');
  });

  it('names no scale for a line that is typed', () => {
    const line = { material: 'Olive oil', target: 450_000, vessel: 'oils pot', lot: 'OL 1' };
    expect(sayText('next-line', { ...line, scale: '' }, show)).toBe('Next: Olive oil, 450 g, lot OL 1. Oils pot, weighed by hand.');
    expect(sayText('next-line', { ...line, scale: 'big scale' }, show)).toContain('Oils pot, on the big scale.');
  });

  it('names what is poured where the cable must hang free', () => {
    expect(sayText('free-the-cable', { material: 'Sodium hydroxide', left: 140_700 }, show)).toMatch(/^Sodium hydroxide: 140\.7 g\. /);
  });
});

it('writes the mark of a lot as one word, which breaks at no line', () => {
  expect(unbroken('RA 26-04')).not.toMatch(/ |-(?!\u2060)/);
  expect(unbroken('RA 26-04').replaceAll('\u2060', '').replaceAll('\u00a0', ' ')).toBe('RA 26-04');
});

it('says of a limit whether it is the most or the least', () => {
  expect([limitOf('lye-too-cold', '30 °C'), limitOf('oils-near-setting', '36 °C')]).toEqual(['at least 30 °C', 'at least 36 °C']);
  expect([limitOf('lye-too-hot', '50 °C'), limitOf('apart', '6 °C')]).toEqual(['at most 50 °C', 'at most 6 °C']);
});
