import type { WireFault } from '../instrument';
import type { Reading } from '../reading';
import type { Monotonic } from '#lib/units/time';

const NEWEST = 32;

/** `unread`: bytes that came before anything was known of their shape. `withheld`: a good frame before proof and settling. */
type Took = Reading | WireFault | 'unread' | { readonly withheld: Reading };

/** One of the newest frames as it came, for the bytes view. */
export interface RawFrame {
  readonly bytes: Uint8Array;
  readonly ageMs: number;
  /** What it was read as, in words, or the name of its fault. */
  readonly took: string;
}

export interface RawRing {
  push(bytes: Uint8Array, at: Monotonic, took: Took): void;
  /** Newest first. */
  frames(now: Monotonic): RawFrame[];
}

export const createRawRing = (): RawRing => {
  const kept: { readonly bytes: Uint8Array; readonly at: Monotonic; readonly took: Took }[] = [];
  return {
    push(bytes, at, took) {
      kept.push({ bytes, at, took });
      if (kept.length > NEWEST) kept.shift();
    },
    frames: (now) => kept.toReversed().map(({ bytes, at, took }) => ({ bytes, ageMs: Math.max(0, now - at), took: inWords(took) })),
  };
};

const inWords = (took: Took): string => {
  if (typeof took === 'string') return took;
  if ('withheld' in took) return `${inWords(took.withheld)}, withheld`;
  if (took.kind === 'mass') return took.range === 'in' ? `${took.text} ${took.unit} ${took.motion}` : took.range;
  return took.fault === null ? `${took.use} ${took.text}` : `${took.use} ${took.fault}`;
};
