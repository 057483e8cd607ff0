import type { DriftMemory, ScaleMemory } from './memory';

/** The empty pan is followed this far and no further; more is something lying on it. */
const FOLLOW = 3;
/** Least mass that counts as something set down, in divisions and as a share of the vessel expected. */
const LEAST = 10;
const SHARE = 0.25;
/** A drift is only believed over this long, ms. */
const DRIFT_OVER = 60_000;

/** Follows the empty pan. Never while a vessel is set: zero tracking there would eat the first drops. */
export const followEmpty = (scale: ScaleMemory, now: number): ScaleMemory => {
  const { track } = scale;
  if (!track.stable || Math.abs(track.level - scale.empty) > FOLLOW * track.division) return scale;
  return { ...scale, empty: track.level, emptySeen: true, drift: followDrift(scale.drift, track.level, now) };
};

const followDrift = (drift: DriftMemory | null, level: number, now: number): DriftMemory => {
  if (drift === null) return { at: now, level, rate: 0 };
  const over = now - drift.at;
  return over < DRIFT_OVER ? drift : { at: now, level, rate: (level - drift.level) / over };
};

/** What a pan must read above empty to carry something, when a vessel of about `expected` mg may come. */
export const threshold = (scale: ScaleMemory, expected: number | null): number =>
  Math.max(LEAST * scale.track.division, SHARE * (expected ?? 0));

/** Something stands on the pan by the newest frame. */
export const isLoaded = (scale: ScaleMemory, expected: number | null): boolean => {
  const newest = scale.track.masses.at(-1);
  return newest !== undefined && newest - scale.empty > threshold(scale, expected);
};

/** The pan reads less than empty: it was zeroed with something on it, or a foot is off the table. */
export const isBelowEmpty = (scale: ScaleMemory): boolean => scale.track.stable && scale.track.level < scale.empty - threshold(scale, null);
