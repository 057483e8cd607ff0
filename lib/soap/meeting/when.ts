import type { When } from './types';

/** Longer than this no span is told, s: it would be right and of no use. */
const LONGEST = 3600;

/** Share of the ways that must meet for a span to be told: ours, so that nineteen in twenty spans hold. */
const LIKELY = 0.75;

const at = (sorted: readonly number[], share: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] as number;

/** What equally likely first meetings come to, ascending; the ways that never meet are infinite. */
export const whenOf = (meetings: readonly number[]): When => {
  const met = meetings.filter((time) => time < Number.POSITIVE_INFINITY);
  const share = met.length / meetings.length;
  if (share < 0.025) return { kind: 'never' };
  const high = at(met, 0.975);
  if (share >= LIKELY && high <= LONGEST) return { kind: 'in', low: at(met, 0.025), middle: at(met, 0.5), high };
  return { kind: 'not-before', after: at(meetings, 0.025) };
};

/** Seconds by which one answer is told to be sooner than another. */
export const soonness = (when: When): number => {
  if (when.kind === 'met') return 0;
  if (when.kind === 'in') return when.middle;
  return when.kind === 'not-before' ? when.after + LONGEST : Number.POSITIVE_INFINITY;
};
