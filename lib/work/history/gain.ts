import type { StopPoint } from './points';

/** What the word "ease off" was worth to one person, over many pours. Masses in mg, chances as fractions. */
export interface StopGain {
  readonly pours: number;
  /** Middle of what still came in after the word. */
  readonly came: number;
  /** Middle of how far the lines ended from their targets. */
  readonly off: number;
  /** Lines that ended within tolerance. */
  readonly within: number;
  /** Those that would have, had the hand begun to stop at the target: as much as came after the word would have come on top. */
  readonly withoutWithin: number;
  /** Middle of how much nearer the target it was for the word; negative: further away. */
  readonly gained: number;
}

const middleOf = (values: readonly number[]): number => {
  const sorted = values.toSorted((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? (sorted[half] ?? 0) : ((sorted[half - 1] ?? 0) + (sorted[half] ?? 0)) / 2;
};

/** `null` of no pours. What would have been without the word is an estimate: nobody poured it. */
export const gainOf = (stops: readonly StopPoint[]): StopGain | null => {
  if (stops.length === 0) return null;
  const part = (of: (stop: StopPoint) => boolean): number => stops.filter(of).length / stops.length;
  return {
    pours: stops.length,
    came: middleOf(stops.map(({ came }) => came)),
    off: middleOf(stops.map(({ ended }) => Math.abs(ended))),
    within: part(({ ended, tolerance }) => Math.abs(ended) <= tolerance),
    withoutWithin: part(({ came, tolerance }) => came <= tolerance),
    gained: middleOf(stops.map(({ came, ended }) => came - Math.abs(ended))),
  };
};
