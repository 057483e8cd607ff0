import { describe, expect, it } from 'vitest';
import { bytesOf, joined, probe, rawProbe } from '#tests/support/encode-frames';
import { hear } from '#tests/support/listen';

const said = (...lines: Uint8Array[]): ReturnType<typeof hear> => hear('probe-line', joined(bytesOf('\n'), ...lines));

describe('a board that says what it measured', () => {
  it.each([
    ['onewire 0191', 25_063],
    ['onewire FF5E', -10_125],
    ['pt100 119.40', 50_008],
    ['type-k 0.000 24.5', 24_500],
    ['type-k 3.096230 25.000', 100_006],
    ['ntc 10000 1.129148 2.34125 0.876741', 25_000],
    ['ntc-beta 10000 10000 3950', 25_000],
  ])('%s', (words, milli) => {
    const [reading, ...others] = said(rawProbe('L', words)).temperatures();
    expect(others).toEqual([]);
    expect(reading).toMatchObject({ use: 'lye', text: words, fault: null });
    expect(Math.abs((reading?.value ?? Number.NaN) - milli)).toBeLessThanOrEqual(10);
  });

  it.each(['onewire 8000', 'pt100 0', 'pt100 9999999', 'type-k 200 25', 'type-k 1 300', 'ntc 0 1 2 0.8', 'ntc-beta 10000 0 3950'])(
    '%s is no temperature, and says so',
    (words) => {
      expect(said(rawProbe('L', words)).temperatures()).toMatchObject([{ value: null, fault: 'out-of-range' }]);
    },
  );

  it.each([
    'onewire 191',
    'onewire 0x91',
    'onewire ff5e',
    'pt100',
    'pt100 1e2',
    'pt100 119,4',
    'pt100 119.4 C',
    'pt100  119.4',
    'type-k 1.2',
    'constructor 1',
    'ntc 10000 1.1 2.3',
    '-',
  ])('%s is no line of ours', (words) => {
    expect(said(rawProbe('L', words))).toMatchObject({ readings: [], faults: [{ fault: 'grammar' }] });
  });

  it('is checked and placed like any other probe line', () => {
    expect(said(bytesOf('P2 L onewire 0191*0000\r\n')).names()).toEqual(['checksum']);
    expect(said(rawProbe('X', 'onewire 0191')).names()).toEqual(['grammar']);
    expect(said(rawProbe('-', 'onewire 0191')).names()).toEqual(['other-channel']);
    // A fault of the sensor is told in version 1, and both may come over one line.
    expect(said(probe('L', '-', 'C', 'disconnected'), rawProbe('O', 'onewire 0190')).temperatures()).toMatchObject([
      { use: 'lye', fault: 'disconnected' },
      { use: 'oils', value: 25_000 },
    ]);
  });
});
