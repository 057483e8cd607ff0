import { describe, expect, it } from 'vitest';
import { monotonic } from '#lib/units/time';
import { SPOKEN, type Shown, bytesOf, encode, joined, leadIn, probe, shapeOf, still } from '#tests/support/encode-frames';
import { listen } from '#tests/support/listen';

/** Values chosen so that any splice of two of them is a value nobody sent. */
const COUNTS = [11_111, 22_222, 33_333, 44_444, 55_555, 66_666];
const weights: Shown[] = COUNTS.map((count) => still(count, 2, 'kg'));
const sent = new Set(COUNTS.map((count) => count * 10_000));

describe('A2: a partial frame never survives a close', () => {
  it('the splice that was seen on the bench: a new wire has nothing of the old one', () => {
    const before = listen('right-query');
    before.wire.push(bytesOf('\r\n   1345.6 g\r\n  12'), monotonic(0));
    const after = listen('right-query');
    after.wire.push(bytesOf('345.6 g\r\n   1345.6 g\r\n   1345.7 g\r\n'), monotonic(1));
    expect(after.numbers()).toEqual([1_345_700]);
  });

  it.each(SPOKEN)('%s cut at every byte, unplugged, and plugged in again at every byte', (spoken) => {
    const first = joined(leadIn(spoken, weights[0] as Shown), ...weights.map((shown) => encode(spoken, shown)));
    const second = joined(...weights.map((shown) => encode(spoken, shown)), ...weights.map((shown) => encode(spoken, shown)));
    let readings = 0;
    for (let cut = 0; cut <= first.length; cut += 1) {
      const before = listen(shapeOf(spoken));
      before.wire.push(first.slice(0, cut), monotonic(0));
      for (const value of before.numbers()) expect(sent).toContain(value);
      readings += before.readings.length;
    }
    for (let again = 0; again < second.length; again += 1) {
      const after = listen(shapeOf(spoken));
      after.wire.push(second.slice(again), monotonic(1));
      for (const value of after.numbers()) expect(sent).toContain(value);
      readings += after.readings.length;
    }
    expect(readings).toBeGreaterThan(500);
  });

  it.each(SPOKEN)('%s: bytes lost anywhere within one opening make no weight that was not sent', (spoken) => {
    const stream = joined(leadIn(spoken, weights[0] as Shown), ...[...weights, ...weights].map((shown) => encode(spoken, shown)));
    const frame = encode(spoken, weights[0] as Shown).length;
    const lead = leadIn(spoken, weights[0] as Shown).length;
    // A loss of one whole frame's length, out of step, mixes two values in one frame of the right layout: only a checksum sees it.
    const lost = spoken === 'stx-status, checked' ? [1, 2, 3, 5, 8, 13, frame] : [1, 2, 3, 5, 8, 13];
    for (const count of lost) {
      for (let at = lead; at + count < stream.length; at += 1) {
        const heard = listen(shapeOf(spoken));
        heard.wire.push(joined(stream.slice(0, at), stream.slice(at + count)), monotonic(0));
        for (const value of heard.numbers()) expect(sent, `${count} lost at ${at}`).toContain(value);
        expect(heard.readings.length).toBeGreaterThan(weights.length);
      }
    }
  });

  it('the probe line cut, spliced and robbed of bytes at every place', () => {
    const lines = COUNTS.map((count) => probe('L', (count / 1000).toFixed(3), 'C', 'ok'));
    const truth = new Set<number | null>(COUNTS);
    const stream = joined(bytesOf('\n'), ...lines);
    for (let at = 0; at < stream.length; at += 1) {
      for (let count = 0; count < 30; count += 1) {
        const heard = listen('probe-line');
        heard.wire.push(joined(stream.slice(0, at), stream.slice(at + count)), monotonic(0));
        for (const value of heard.numbers()) expect(truth).toContain(value);
      }
    }
  });
});
