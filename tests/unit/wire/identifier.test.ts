import { describe, expect, it } from 'vitest';
import { createIdentifier } from '#lib/measure/wire/index';
import { monotonic } from '#lib/units/time';
import { SPOKEN, bytesOf, encode, joined, leadIn, probe, shapeOf, still } from '#tests/support/encode-frames';

const shown = still(1234, 2, 'kg');

describe('identify by frame', () => {
  it.each(SPOKEN)('%s: after two readings, not one, and for good', (spoken) => {
    const identifier = createIdentifier();
    const frame = encode(spoken, shown);
    expect(identifier.push(leadIn(spoken, shown), monotonic(0))).toBeNull();
    expect(identifier.push(frame, monotonic(1))).toBeNull();
    expect(identifier.push(frame, monotonic(2))).toBe(shapeOf(spoken));
    expect(identifier.push(bytesOf('anything\r\n'), monotonic(3))).toBe(shapeOf(spoken));
  });

  it('a probe line, with or without a vessel', () => {
    for (const letter of ['O', '-']) {
      const identifier = createIdentifier();
      const line = probe(letter, '41.5', 'C', 'ok');
      expect(identifier.push(joined(bytesOf('\n'), line), monotonic(0))).toBeNull();
      expect(identifier.push(line, monotonic(1))).toBe('probe-line');
    }
  });

  it('says nothing while two shapes speak on one line', () => {
    const identifier = createIdentifier();
    const mixed = [encode('header-comma', shown), encode('header-mode-comma', shown)];
    expect(identifier.push(joined(bytesOf('\n'), ...Array.from({ length: 10 }, () => mixed).flat()), monotonic(0))).toBeNull();
  });

  it('never takes one shape for another', () => {
    for (const spoken of SPOKEN) {
      const frames = [still(0, 2, 'lb'), still(99_999, 2, 'lb'), { ...still(500, 2, 'lb'), negative: true, motion: 'moving' as const }];
      const identifier = createIdentifier();
      const stream = joined(leadIn(spoken, still(0, 2, 'lb')), ...frames.map((frame) => encode(spoken, frame)));
      expect(identifier.push(stream, monotonic(0))).toBe(shapeOf(spoken));
    }
  });
});
