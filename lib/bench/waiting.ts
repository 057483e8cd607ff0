import type { MeetingLane } from '#lib/protocol/forecast';
import type { Monotonic } from '#lib/units/time';
import { hasCooled, type LyeSeen } from '#lib/work/batch/heating';
import type { BatchState, HoldReason } from '#lib/work/batch/index';

/** Warmer again by so much: a hob, more hydroxide, the wrong jug. Ours. */
const RISEN = 3_000;
/** Lye no cooler than so long ago does not cool: a thin jug at 50 °C loses half a degree in one or two minutes. Ours. */
const STANDS_MS = 20 * 60_000;
/** Whoever held the closed card of joining wanted to join for so long. Ours. */
const ASKED_MS = 60_000;

/** Whom a forecast says to act on, since lye and oils will not meet by themselves; `null`: they will, or nobody knows. */
export const neverMeet = (meeting: MeetingLane | null): 'lye' | 'oils' | null => {
  if (meeting?.kind !== 'meeting' || meeting.joinable.kind !== 'never') return null;
  return meeting.acts[0]?.vessel ?? 'lye';
};

const TEMPERATURES: readonly HoldReason[] = [
  'lye-too-hot',
  'lye-too-cold',
  'oils-too-hot',
  'oils-near-setting',
  'apart',
  'temperature-unknown',
];

export interface Wait {
  readonly batch: BatchState;
  readonly lyeSeen: LyeSeen | null;
  readonly never: 'lye' | 'oils' | null;
  /** When somebody last held the closed card of joining. */
  readonly joinAsked: number | null;
  readonly now: Monotonic;
}

/**
 * Whether hot lye, or lye and oils apart, are more than the waiting that every batch has: then they sound. Freshly made lye is always too
 * hot, and an alarm that every batch brings is one nobody hears. Joining is held either way, and a silent probe has an alarm of its own.
 */
export const isTroubled = (code: 'lye-too-hot' | 'apart', { batch, lyeSeen, never, joinAsked, now }: Wait): boolean => {
  if (joinAsked !== null && now - joinAsked <= ASKED_MS) return true;
  if (TEMPERATURES.some((reason) => reason !== code && batch.overrides[reason] !== undefined)) return true;
  if (never !== null && (code === 'apart' || never === 'lye')) return true;
  if (code === 'apart' || lyeSeen === null) return false;
  return (hasCooled(lyeSeen) && lyeSeen.last - lyeSeen.least >= RISEN) || now - lyeSeen.moved >= STANDS_MS;
};
