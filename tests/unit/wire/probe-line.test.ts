import { describe, expect, it } from 'vitest';
import type { WireFault } from '#lib/measure/instrument';
import { bytesOf, joined, probe } from '#tests/support/encode-frames';
import { hear } from '#tests/support/listen';

const said = (...lines: Uint8Array[]): ReturnType<typeof hear> => hear('probe-line', joined(bytesOf('\n'), ...lines));

describe('probe line', () => {
  it('A7: a word where the number should be is a reason, not a number', () => {
    for (const text of ['NaN', 'Err', 'OL', '---', '85', '1e3', '0x10', '+43.2', '43,2']) {
      const heard = said(probe('L', text, 'C', 'ok'));
      expect(heard.temperatures(), text).toMatchObject([{ value: null, fault: 'not-a-number' }]);
    }
  });

  it.each([
    ['disconnected', 'disconnected'],
    ['shorted', 'shorted'],
    ['power-on-value', 'power-on-value'],
    ['checksum', 'checksum'],
    ['out-of-range', 'out-of-range'],
    ['error', 'probe-error'],
  ])('the board says %s', (word, fault) => {
    expect(said(probe('L', '-', 'C', word)).temperatures()).toMatchObject([{ value: null, text: '', fault }]);
    // A number beside a fault is a contradiction, not a temperature.
    expect(said(probe('L', '43.2', 'C', word))).toMatchObject({ readings: [], faults: [{ fault: 'grammar' }] });
  });

  it('is refused when anything does not fit', () => {
    const bad: [Uint8Array, WireFault][] = [
      [probe('L', '43.250', 'K', 'ok'), 'unknown-unit'],
      [probe('X', '43.250', 'C', 'ok'), 'grammar'],
      [probe('L', '43.250', 'C', 'fine'), 'grammar'],
      [probe('L', ' 43.250', 'C', 'ok'), 'grammar'],
      [bytesOf('P1 L 43.250 C ok\r\n'), 'grammar'],
      [bytesOf('P1 L 43.250 C ok*0000\r\n'), 'checksum'],
      [bytesOf('P1 L 43.250 C ok*b256\r\n'), 'checksum'],
      [bytesOf('*B256\r\n'), 'grammar'],
      [probe('-', '43.250', 'C', 'ok'), 'other-channel'],
    ];
    for (const [line, fault] of bad) expect(said(line)).toMatchObject({ readings: [], faults: [{ fault }] });
  });

  it('keeps the vessel a person gave it', () => {
    const lines = joined(bytesOf('\n'), probe('-', '20.5', 'C', 'ok'), probe('L', '80.5', 'C', 'ok'), probe('O', '40.5', 'C', 'ok'));
    const heard = hear('probe-line', lines, 'oils');
    expect(heard.temperatures().map(({ use, value }) => [use, value])).toEqual([
      ['oils', 20_500],
      ['oils', 40_500],
    ]);
    expect(heard.names()).toEqual(['other-channel']);
  });
});
