import type { Shape } from '#lib/measure/shape';
import { SPOKEN, type Shown, type Spoken, encode, joined, leadIn, probe, shapeOf, still } from '#tests/support/encode-frames';

const PROBE = 'probe-line';
export type Subject = Spoken | typeof PROBE;
export const SUBJECTS: readonly Subject[] = [...SPOKEN, PROBE];

export const shapeOfSubject = (subject: Subject): Shape => (subject === PROBE ? PROBE : shapeOf(subject));

const FRAMES = 10_000;
const CR = 13;

/** A pour, a pause, a pour: 10,000 frames, about 0.2 MB: short, so that some rounds go undisturbed on a busy machine. */
export const streamOf = (subject: Subject): Uint8Array => {
  const frames: Uint8Array[] = [];
  for (let at = 0; at < FRAMES; at += 1) {
    const moving = at % 40 < 25;
    const count = Math.abs(Math.round(20_000 + 19_000 * Math.sin(at / 400)) + (moving ? (at * 7) % 13 : 0));
    if (subject === PROBE) frames.push(probe('L', (20 + count / 1000).toFixed(3), 'C', 'ok'));
    else {
      const frame = encode(subject, weight(count, moving));
      // The bare parser ends a line at every CR and cannot tell a checksum that is one.
      if (frame.at(-1) !== CR || subject === 'stx-status, plain') frames.push(frame);
    }
  }
  return subject === PROBE ? joined(probe('L', '20.000', 'C', 'ok'), ...frames) : joined(leadIn(subject, weight(0, false)), ...frames);
};

const weight = (count: number, moving: boolean): Shown => ({ ...still(count, 3, 'kg'), motion: moving ? 'moving' : 'stable' });

export const chunksOf = (bytes: Uint8Array, size: number): Uint8Array[] => {
  const chunks: Uint8Array[] = [];
  for (let at = 0; at < bytes.length; at += size) chunks.push(bytes.slice(at, at + size));
  return chunks;
};
