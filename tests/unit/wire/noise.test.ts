import { monitorEventLoopDelay } from 'node:perf_hooks';
import { setImmediate as turn } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { PROBE_SHAPES, SCALE_SHAPES } from '#lib/measure/shape';
import { FRAME_CAP, createIdentifier } from '#lib/measure/wire/index';
import { monotonic } from '#lib/units/time';
import { bytesOf, joined } from '#tests/support/encode-frames';
import { type Heard, listen } from '#tests/support/listen';

const NOISE = 50_000_000;
const MOST_DELAY_MS = 50;

/** Random bytes that are the same in every run (xorshift, 32 bits). */
const randomBytes = (length: number, most = 255): Uint8Array => {
  let state = 0x2545f491;
  return Uint8Array.from({ length }, () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 8) % (most + 1);
  });
};

/** What a port may hear in place of frames: chunks from 4 kB to 64 kB. */
const KINDS: readonly (readonly [name: string, chunk: Uint8Array])[] = [
  ['random bytes', randomBytes(65_536)],
  ['no line end at all', randomBytes(65_536, 1)],
  ['starts without an end', new Uint8Array(65_536).fill(2)],
  ['empty lines', new Uint8Array(4096).fill(10)],
  ['short lines', randomBytes(16_384).map((byte, at) => (at % 8 === 7 ? 10 : 0x20 + (byte % 0x5e)))],
  ['almost frames', joined(...Array.from({ length: 600 }, () => bytesOf('ST,+00012.3\u0002-0 00')))],
];

/** The processor time one call takes, ms: another program on the machine does not count. */
const busy = (work: () => void): number => {
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
};

/** What is gathered without limit takes longer with every chunk: told at once, or the rest of the noise would take hours. */
const HOPELESS_MS = 5 * MOST_DELAY_MS;

describe('B6: noise never stalls and never becomes a reading', () => {
  it('is named, so that a person is told to look at speed and parity', () => {
    const noisy = listen('header-comma');
    noisy.wire.push(randomBytes(65_536), monotonic(0));
    expect(new Set(noisy.names())).toContain('not-ascii');
    const endless = listen('header-comma');
    endless.wire.push(randomBytes(65_536, 1), monotonic(0));
    expect(endless.names()).toEqual(['too-long']);
  });

  // Other programs may take the processor away for longer than that, so the strict figure is the time the processor spent on one chunk;
  // the delay of the loop itself is held in nine of ten turns, in one of four goes.
  it('50 MB of every kind, spread over every shape, keeps the loop delay under 50 ms', { retry: 3 }, async () => {
    const heard: Heard[] = [...SCALE_SHAPES, ...PROBE_SHAPES].map((shape) => listen(shape));
    const delay = monitorEventLoopDelay({ resolution: 5 });
    delay.enable();
    let longest = 0;
    for (const [, chunk] of KINDS) {
      for (let fed = 0; fed < NOISE / KINDS.length / heard.length; fed += chunk.length) {
        for (const { wire, faults, readings } of heard) {
          longest = Math.max(
            longest,
            busy(() => wire.push(chunk, monotonic(fed))),
          );
          expect(readings).toEqual([]);
          expect(faults.every(({ raw }) => raw.length <= FRAME_CAP)).toBe(true);
          faults.length = 0;
          if (longest > HOPELESS_MS) expect.fail(`one chunk took ${Math.round(longest)} ms`);
          await turn();
        }
      }
    }
    delay.disable();
    expect(longest).toBeLessThan(MOST_DELAY_MS);
    expect(delay.percentile(90) / 1e6).toBeLessThan(MOST_DELAY_MS);
  });

  it.each([...SCALE_SHAPES, ...PROBE_SHAPES])('%s: 50 MB without a line end cost no more by the end than at the start', async (shape) => {
    const chunk = randomBytes(65_536, 1);
    const { wire, faults } = listen(shape);
    let longest = 0;
    for (let fed = 0; fed < NOISE; fed += chunk.length) {
      longest = Math.max(
        longest,
        busy(() => wire.push(chunk, monotonic(fed))),
      );
      faults.length = 0;
      if (longest > HOPELESS_MS) expect.fail(`after ${fed} bytes one chunk took ${Math.round(longest)} ms`);
      if (fed % (16 * chunk.length) === 0) await turn();
    }
    expect(longest).toBeLessThan(MOST_DELAY_MS);
  });

  it('is no proof of any shape, and not slow while identifying either', () => {
    const identifier = createIdentifier();
    for (const [, chunk] of KINDS) {
      expect(busy(() => expect(identifier.push(chunk, monotonic(0))).toBeNull())).toBeLessThan(MOST_DELAY_MS);
    }
  });
});
