import type { BenchCue } from './cue';

/**
 * What guides the ear while pouring. `pulse`: the pitch closes on the target; `steady`: within; `late`: frames come late, which must not
 * sound like nothing to do.
 */
export type Tone =
  | { readonly kind: 'none' }
  | { readonly kind: 'pulse'; readonly hz: number; readonly perSecond: number }
  | { readonly kind: 'steady'; readonly hz: number }
  | { readonly kind: 'late' };

/** Short sounds of another timbre, said once. `over` is a falling pair. */
export type Signal = 'ease-off' | 'over' | 'accepted' | 'held';

/** Two octaves, from far away to the target: 330 to 1320 Hz. Ours, tried on simulated hands: people thin the flow as it closes. */
const LOWEST_HZ = 330;
const OCTAVES = 2;
/** The pitch begins to rise with this share of the target still to come. */
const FROM_SHARE = 0.4;
const SLOWEST = 2;
const FASTEST = 8;

const POURING: ReadonlySet<BenchCue['phase']> = new Set(['pouring', 'settling', 'short']);

/** The tone of this moment. Pure: a page plays it and keeps nothing of it. */
export const toneOf = (cue: BenchCue): Tone => {
  if (cue.holdSound) return { kind: 'late' };
  if (cue.left === null || cue.target === null || cue.tolerance === null || !POURING.has(cue.phase)) return { kind: 'none' };
  const coming = cue.left - (cue.overshoot ?? 0);
  if (cue.left + cue.tolerance < 0) return { kind: 'none' };
  if (coming <= 0 || cue.left <= cue.tolerance) return { kind: 'steady', hz: LOWEST_HZ * 2 ** OCTAVES };
  const far = Math.min(coming / (FROM_SHARE * cue.target), 1);
  return { kind: 'pulse', hz: LOWEST_HZ * 2 ** (OCTAVES * (1 - far)), perSecond: FASTEST - (FASTEST - SLOWEST) * far };
};

/** The short sound that belongs to the step from one cue to the next; the most urgent when there are several. */
export const signalOf = (before: BenchCue, after: BenchCue): Signal | null => {
  if (after.phase === 'over' && before.phase !== 'over') return 'over';
  if (after.easeOff && !(before.easeOff && before.line === after.line)) return 'ease-off';
  if (after.say?.code === 'accepted' && after.say.id !== before.say?.id) return 'accepted';
  if (after.phase === 'hold' && before.phase !== 'hold') return 'held';
  return null;
};
