import { describe, expect, it } from 'vitest';
import type { WireFault } from '#lib/measure/instrument';
import type { ScaleShape } from '#lib/measure/shape';
import { monotonic } from '#lib/units/time';
import { SPOKEN, bytesOf, encode, joined, leadIn, shapeOf, still } from '#tests/support/encode-frames';
import { hear, listen } from '#tests/support/listen';

const GOOD: Readonly<Record<Exclude<ScaleShape, 'stx-status'>, string>> = {
  'header-comma': 'ST,+00012.34  g',
  'header-mode-comma': 'ST,GS,+  1.250kg',
  'echo-marker': 'SI         18.5 kg',
  'letter-reply': 'S S     100.00 g',
  'right-query': '    192.21 g',
};

const TABLE: readonly [shape: Exclude<ScaleShape, 'stx-status'>, frame: string, fault: WireFault][] = [
  ['header-comma', 'ST,+00012.34 lt', 'unknown-unit'],
  ['header-comma', 'ST,+00012.34ozt', 'unknown-unit'],
  ['header-comma', 'ST,+00012.34  G', 'unknown-unit'],
  ['header-comma', 'ST,+00012.34   ', 'unknown-unit'],
  ['header-comma', 'ST,+00012.34  %', 'unknown-unit'],
  ['header-comma', 'QT,+0000012 PC', 'unknown-unit'],
  ['header-comma', 'QT,+00012.34  g', 'unknown-unit'],
  ['header-comma', 'st,+00012.34  g', 'grammar'],
  ['header-comma', 'ST,00012.34  g', 'grammar'],
  ['header-comma', 'ST,+00012.34  g g', 'grammar'],
  ['header-comma', 'ST,+000 2.34  g', 'grammar'],
  ['header-comma', 'ST,+00012.3.4  g', 'grammar'],
  ['header-comma', 'ST,+---.--  g', 'bad-number'],
  ['header-comma', 'ST,+00012.  g', 'bad-number'],
  ['header-comma', 'ST,+.1234  g', 'bad-number'],
  ['header-comma', 'ST,+0000000012345.678  g', 'bad-number'],
  ['header-comma', 'ST,+99999999  g', 'bad-number'],
  ['header-comma', 'T,+00012.34  g', 'grammar'],
  ['header-comma', ' ST,+00012.34  g', 'grammar'],
  ['header-comma', 'ST,+00012.34  g\rST,+00012.34  g', 'grammar'],
  ['header-comma', 'ST,+0012.34  g', 'layout'],
  ['header-comma', 'ST,+00012.34 kg', 'layout'],
  ['header-comma', 'S\u00d4,+00012.34  g', 'not-ascii'],
  ['header-comma', 'ST,+00012.34  \u00e7', 'not-ascii'],
  ['header-comma', 'OL,+-------  g', 'bad-number'],
  ['header-mode-comma', 'ST,XX,+  1.250kg', 'grammar'],
  ['header-mode-comma', 'ST,GS,   1.250kg', 'grammar'],
  ['header-mode-comma', 'ST,GS,+       kg', 'bad-number'],
  ['header-mode-comma', 'ST,GS,+  1.250t', 'unknown-unit'],
  ['header-mode-comma', 'ST,GS,+  1.250', 'unknown-unit'],
  ['header-mode-comma', 'ST,GS,+ 1.250kg', 'layout'],
  ['header-mode-comma', 'ST,GS', 'grammar'],
  ['echo-marker', 'S A', 'declined'],
  ['echo-marker', 'S I', 'declined'],
  ['echo-marker', 'S E', 'declined'],
  ['echo-marker', 'S X', 'bad-number'],
  ['echo-marker', 'SI ', 'grammar'],
  ['echo-marker', 'SI', 'grammar'],
  ['echo-marker', 'LONG       18.5 kg', 'grammar'],
  ['echo-marker', 'SI ?18.5 kg', 'grammar'],
  ['echo-marker', 'SI         18.5kg', 'grammar'],
  ['echo-marker', 'SI ! 18.5 kg', 'bad-number'],
  ['echo-marker', 'SI ^^', 'grammar'],
  ['echo-marker', 'SI         18.5 stn', 'unknown-unit'],
  ['echo-marker', 'SI        18.5 kg', 'layout'],
  ['letter-reply', 'S I', 'declined'],
  ['letter-reply', 'S S', 'grammar'],
  ['letter-reply', 'S X     100.00 g', 'grammar'],
  ['letter-reply', 'S S100.00 g', 'grammar'],
  ['letter-reply', 'SI      100.00 g', 'grammar'],
  ['letter-reply', 'S S     100.00g', 'grammar'],
  ['letter-reply', 'S S        Err g', 'bad-number'],
  ['letter-reply', 'S S    100.00 g', 'layout'],
  ['letter-reply', 'S S     100.00 ct', 'unknown-unit'],
  ['right-query', '     92.21 kg ? ? ', 'grammar'],
  ['right-query', '192.21 g', 'layout'],
  ['right-query', '    192.21g', 'grammar'],
  ['right-query', '    192.21 dwt', 'unknown-unit'],
  ['right-query', '    192.21', 'grammar'],
  ['right-query', '    192.21 g    192.21 g', 'grammar'],
  ['right-query', '    192.21 g       ABCDEFGHIJK', 'grammar'],
  ['right-query', '    Error 8', 'bad-number'],
];

describe('A8: what a frame states is believed whole or not at all', () => {
  it.each(TABLE)('%s: "%s" is %s', (shape, frame, fault) => {
    const lead = joined(bytesOf('\n'), bytesOf(`${GOOD[shape]}\r\n`), bytesOf(`${GOOD[shape]}\r\n`));
    const heard = hear(shape, joined(lead, bytesOf(`${frame}\r\n`), bytesOf(`${GOOD[shape]}\r\n`)));
    expect(heard.names()).toEqual(['first-partial', fault]);
    expect(String.fromCharCode(...(heard.faults[1]?.raw ?? []))).toBe(frame);
    expect(heard.readings).toHaveLength(2);
  });

  it.each(SPOKEN)('%s: kg to lb in mid-pour never shows one unit in the other, and shows lb from the third frame', (spoken) => {
    const kg = [100, 110, 120].map((count) => still(count, 2, 'kg'));
    const lb = [265, 270, 275, 280].map((count) => still(count, 2, 'lb'));
    const heard = hear(
      shapeOf(spoken),
      joined(leadIn(spoken, still(100, 2, 'kg')), ...[...kg, ...lb].map((shown) => encode(spoken, shown))),
    );
    // 2.75 lb = 1.247 379 017 5 kg, 2.80 lb = 1.270 058 636 kg (avoirdupois pound: NIST SP 811, App. B).
    expect(heard.masses().map(({ unit, mass }) => [unit, mass])).toEqual([
      ['kg', 1_000_000],
      ['kg', 1_100_000],
      ['kg', 1_200_000],
      ['lb', 1_247_379],
      ['lb', 1_270_059],
    ]);
    expect(heard.names().slice(-2)).toEqual(['layout', 'layout']);
  });

  it.each(SPOKEN.filter((spoken) => spoken !== 'right-query'))('%s: overload and underload have no weight', (spoken) => {
    const shown = still(100, 2, 'kg');
    const heard = hear(
      shapeOf(spoken),
      joined(leadIn(spoken, shown), encode(spoken, { ...shown, range: 'over' }), encode(spoken, { ...shown, range: 'under' })),
    );
    expect(heard.masses().map(({ range, mass, text }) => [range, mass, text])).toEqual([
      ['over', null, ''],
      ['under', null, ''],
    ]);
  });

  it('an overload in another unit does not lend it to the next weight', () => {
    const heard = hear('header-comma', bytesOf('\nST,+00012.34  g\r\nST,+00012.34  g\r\nOL,+9999999.9 kg\r\nST,+00012.34  g\r\n'));
    expect(heard.masses().map(({ unit, mass }) => [unit, mass])).toEqual([
      ['g', 12_340],
      ['kg', null],
      ['g', 12_340],
    ]);
  });

  it('a display that changes its decimals in place changes its step', () => {
    const heard = hear('header-comma', bytesOf('\nST,+00012.34  g\r\nST,+00012.34  g\r\nST,+000012.3  g\r\n'));
    expect(heard.masses().map(({ step, mass }) => [step, mass])).toEqual([
      [10, 12_340],
      [100, 12_300],
    ]);
  });

  it('an overload without a unit keeps the unit and step last stated', () => {
    const heard = hear('letter-reply', bytesOf('\nS S     1.2345 kg\r\nS S     1.2345 kg\r\nS +\r\n'));
    expect(heard.masses().at(-1)).toMatchObject({ range: 'over', mass: null, unit: 'kg', step: 100 });
  });
});

describe('the state of one wire', () => {
  it('counts readings of one opening from one', () => {
    const heard = listen('header-comma');
    for (let at = 0; at < 5; at += 1) heard.wire.push(bytesOf('ST,+00012.34  g\r\n'), monotonic(at));
    expect(heard.readings.map(({ seq, at }) => [seq, at])).toEqual([
      [1, 2],
      [2, 3],
      [3, 4],
    ]);
  });

  it('hands out bytes that later chunks do not change', () => {
    const heard = listen('header-comma');
    const chunk = bytesOf('\nST,+00012.34  g\r\nST,+00012.34  g\r\n');
    heard.wire.push(chunk, monotonic(0));
    chunk.fill(0);
    expect(String.fromCharCode(...(heard.readings[0]?.raw ?? []))).toBe('ST,+00012.34  g');
  });
});
