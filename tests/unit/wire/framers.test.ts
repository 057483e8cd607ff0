import { describe, expect, it } from 'vitest';
import { FRAME_CAP } from '#lib/measure/wire/index';
import { monotonic } from '#lib/units/time';
import { SPOKEN, bytesOf, encode, joined, leadIn, probe, shapeOf, still } from '#tests/support/encode-frames';
import { hear, listen, told } from '#tests/support/listen';

const A = still(1234, 2, 'kg');
const B = still(57, 2, 'kg');
const C = still(40_000, 2, 'kg');

/** The same cases for every framer; `frames` are three different whole frames, `lead` what makes a new wire believe them. */
const rows = [
  ...SPOKEN.map((spoken) => ({
    name: spoken,
    shape: shapeOf(spoken),
    lead: leadIn(spoken, A),
    frames: [A, B, C].map((shown) => encode(spoken, shown)),
    values: [12_340_000, 570_000, 400_000_000],
    start: shapeOf(spoken) === 'stx-status' ? bytesOf('\u0002') : bytesOf(''),
  })),
  {
    name: 'probe-line',
    shape: 'probe-line' as const,
    lead: bytesOf('\n'),
    frames: [probe('L', '43.250', 'C', 'ok'), probe('L', '-0.5', 'C', 'ok'), probe('L', '80.1', 'C', 'ok')],
    values: [43_250, -500, 80_100],
    start: bytesOf(''),
  },
];

describe.each(rows)('$name', ({ shape, lead, frames, values, start }) => {
  const [one, two, three] = frames as [Uint8Array, Uint8Array, Uint8Array];

  it('reads a whole frame and keeps its bytes', () => {
    const heard = hear(shape, joined(lead, one));
    expect(heard.numbers()).toEqual([values[0]]);
    const raw = heard.readings[0]?.raw ?? new Uint8Array();
    expect(raw.length).toBeGreaterThan(10);
    expect(one.slice(0, raw.length)).toEqual(raw);
    expect(heard.readings[0]?.seq).toBe(1);
  });

  it('reads two frames out of one chunk', () => {
    const heard = listen(shape);
    heard.wire.push(lead, monotonic(1));
    const before = heard.faults.length;
    heard.wire.push(joined(one, two), monotonic(2));
    expect(heard.numbers()).toEqual(values.slice(0, 2));
    expect(heard.readings.map(({ seq, at }) => [seq, at])).toEqual([
      [1, 2],
      [2, 2],
    ]);
    expect(heard.faults).toHaveLength(before);
  });

  it('reads a frame split anywhere, stamped with the chunk that completed it', () => {
    const bytes = joined(one, two);
    for (let cut = 1; cut < bytes.length; cut += 1) {
      const heard = listen(shape);
      heard.wire.push(lead, monotonic(1));
      heard.wire.push(bytes.slice(0, cut), monotonic(2));
      heard.wire.push(bytes.slice(cut), monotonic(3));
      expect(heard.numbers()).toEqual(values.slice(0, 2));
      expect(heard.readings[1]?.at).toBe(3);
    }
  });

  it('loses no more than the frame a byte is corrupted in, whichever byte', () => {
    for (let at = 0; at < two.length; at += 1) {
      const corrupt = two.slice();
      // DEL stands in no frame.
      corrupt[at] = 0x7f;
      const heard = hear(shape, joined(lead, one, corrupt, three, one, two));
      const got = heard.numbers();
      // A broken end runs into the next frame, which is then lost with it.
      expect([
        [values[0], values[2], values[0], values[1]],
        [values[0], values[0], values[1]],
      ]).toContainEqual(got);
    }
  });

  it('goes on after junk, which is one fault', () => {
    const heard = listen(shape);
    heard.wire.push(joined(lead, one), monotonic(1));
    const before = heard.faults.length;
    heard.wire.push(joined(bytesOf('~~ boot v2 ~~\r\n'), two, three), monotonic(2));
    expect(heard.numbers()).toEqual(values);
    expect(heard.faults).toHaveLength(before + 1);
  });

  it('drops junk before the first frame', () => {
    const heard = hear(shape, joined(bytesOf('oot v2'), lead, one));
    expect(heard.numbers()).toEqual([values[0]]);
    expect(heard.faults[0]?.fault).toBe('first-partial');
  });

  it('gives up a frame that never ends, once, and finds the next', () => {
    const endless = joined(start, new Uint8Array(FRAME_CAP * 2).fill(0x55));
    for (const size of [1, 1000, endless.length]) {
      const heard = listen(shape);
      heard.wire.push(joined(lead, one), monotonic(1));
      const before = heard.faults.length;
      for (let at = 0; at < endless.length; at += size) heard.wire.push(endless.slice(at, at + size), monotonic(2));
      heard.wire.push(joined(bytesOf('\r\n'), one, one, two), monotonic(3));
      const after = heard.faults.slice(before);
      expect(after.some(({ fault }) => fault === 'too-long')).toBe(true);
      expect(Math.max(...after.map(({ raw }) => raw.length))).toBe(FRAME_CAP);
      expect(heard.numbers().slice(-1)).toEqual([values[1]]);
    }
  });

  it('takes silence inside a frame as a hint only: the tail is never a frame of its own', () => {
    for (let cut = 1; cut < one.length; cut += 1) {
      const heard = listen(shape);
      heard.wire.push(joined(lead, one, two.slice(0, cut)), monotonic(0));
      heard.wire.idle(monotonic(499));
      const before = heard.faults.length;
      heard.wire.idle(monotonic(500));
      const whole = heard.numbers().length;
      expect(whole === 2 || heard.faults.length === before + 1).toBe(true);
      heard.wire.push(joined(two.slice(cut), one, one, one, three), monotonic(600));
      expect(heard.numbers().slice(0, whole)).toEqual(values.slice(0, whole));
      expect(new Set(heard.numbers().slice(whole, -1))).toEqual(new Set([values[0]]));
      expect(heard.numbers().at(-1)).toBe(values[2]);
    }
  });

  it('B20: a stream longer than the block it is kept in comes out whole, and what was kept of it stays as it was', () => {
    // Some fifty kilobytes, so that three blocks or more end within a frame.
    const turns = 1_000;
    const stream = joined(lead, ...Array.from({ length: turns }, () => joined(one, two, three)));
    const first = one.slice(0, hear(shape, joined(lead, one)).readings[0]?.raw.length);
    for (const size of [997, 4_096, stream.length]) {
      const heard = listen(shape);
      for (let at = 0; at < stream.length; at += size) heard.wire.push(stream.slice(at, at + size), monotonic(0));
      expect(heard.names().filter((name) => name !== 'first-partial')).toEqual([]);
      expect(heard.numbers()).toEqual(Array.from({ length: turns }, () => values).flat());
      expect(heard.readings.filter(({ seq }) => seq % 3 === 1).every(({ raw }) => Buffer.compare(raw, first) === 0)).toBe(true);
    }
  });

  it('B20: says the same of one stream in chunks of 1 byte and of 4 kB', () => {
    const stream = joined(bytesOf('3.4'), lead, ...Array.from({ length: 300 }, (_, i) => frames[i % 3] as Uint8Array));
    const coarse = listen(shape);
    const fine = listen(shape);
    for (let at = 0; at < stream.length; at += 4096) coarse.wire.push(stream.slice(at, at + 4096), monotonic(at));
    for (let at = 0; at < stream.length; at += 1) fine.wire.push(stream.slice(at, at + 1), monotonic(at));
    expect(coarse.readings).toHaveLength(300);
    expect(fine.readings.map(told)).toEqual(coarse.readings.map(told));
    expect(fine.faults).toEqual(coarse.faults);
  });
});
