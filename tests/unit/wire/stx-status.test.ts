import { describe, expect, it } from 'vitest';
import type { WireFault } from '#lib/measure/instrument';
import { encode, joined, still } from '#tests/support/encode-frames';
import { hear } from '#tests/support/listen';

const shown = still(1250, 3, 'kg');
const checked = encode('stx-status, checked', shown);
const plain = encode('stx-status, plain', shown);
const times = (count: number, frame: Uint8Array): Uint8Array => joined(...Array.from({ length: count }, () => frame));

const changed = (frame: Uint8Array, at: number, to: number): Uint8Array => {
  const other = frame.slice();
  other[at] = to;
  return other;
};

/** The fault a plain frame makes with the byte at `at` changed. */
const faultWith = (at: number, to: number): WireFault | undefined => {
  const odd = changed(plain, at, to);
  return hear('stx-status', joined(times(4, plain), odd, plain))
    .names()
    .at(-1);
};

describe('stx-status', () => {
  it('a frame cut short anywhere loses nothing of the next', () => {
    for (const frame of [checked, plain]) {
      for (let length = 1; length < 17; length += 1) {
        const heard = hear('stx-status', joined(times(4, frame), frame.slice(0, length), frame, frame));
        expect(heard.numbers()).toHaveLength(3);
        expect(heard.names().at(-1)).toBe('grammar');
      }
    }
  });

  it('a bad checksum is never a weight', () => {
    // Every digit of weight and tare, one after another, turned into a neighbour.
    for (let at = 4; at < 16; at += 1) {
      const heard = hear('stx-status', joined(times(4, checked), changed(checked, at, (checked[at] as number) ^ 1), checked));
      expect(heard.numbers()).toEqual([1_250_000, 1_250_000]);
      expect(heard.names().at(-1)).toBe('checksum');
    }
  });

  it('an instrument whose checksums never fit states nothing, ever', () => {
    const heard = hear('stx-status', times(50, changed(checked, 17, (checked[17] as number) ^ 0x40)));
    expect(heard.readings).toEqual([]);
    expect(new Set(heard.names())).toEqual(new Set(['checksum']));
  });

  it('checksums once shown are demanded for as long as the port is open', () => {
    const heard = hear('stx-status', joined(times(4, checked), times(20, plain)));
    expect(heard.readings).toHaveLength(1);
  });

  it('checksums switched on later are noticed and then demanded', () => {
    const bad = changed(checked, 9, 0x31);
    const heard = hear('stx-status', joined(times(5, plain), times(5, checked), bad, checked));
    expect(new Set(heard.numbers())).toEqual(new Set([1_250_000]));
    expect(heard.names().at(-1)).toBe('checksum');
  });

  it.each([
    ['the start', 2, 999_995],
    ['the end', 13, 999_930],
  ])('a checksum that looks like %s is no trouble, standing still or not', (_, sum, count) => {
    const frame = encode('stx-status, checked', still(count, 3, 'kg'));
    expect(frame[17]).toBe(sum);
    const standing = hear('stx-status', times(6, frame));
    expect(standing.numbers()).toEqual([count * 1000, count * 1000, count * 1000]);
    const running = hear('stx-status', joined(times(4, checked), frame, checked, frame));
    expect(running.numbers()).toEqual([1_250_000, count * 1000, 1_250_000, count * 1000]);
    // The same value without a checksum: what stands behind the CR is the next start.
    expect(hear('stx-status', times(6, frame.slice(0, 17))).numbers()).toHaveLength(3);
  });

  it('unlisted status bits are faults', () => {
    expect(faultWith(1, 0b0010_1000)).toBe('grammar');
    expect(faultWith(1, 0b0010_0101)).toBe('grammar');
    expect(faultWith(1, 0b0110_1101)).toBe('grammar');
    expect(faultWith(3, 0b0010_0010)).toBe('unknown-unit');
    expect(faultWith(5, 0x3a)).toBe('bad-number');
    expect(faultWith(12, 0x20)).toBe('bad-number');
    expect(faultWith(1, 0b0010_1110)).toBe('layout');
    expect(faultWith(2, 0b0010_0000)).toBe('layout');
  });
});
