import type { Turn } from '#lib/soap/cooling/types';
import type { MilliCelsius } from '#lib/units/temperature';

/**
 * Temperatures at even steps of time, oldest first, up to the moment of the entry; each the mean of its step, `null` where nothing was
 * heard. Other moments are whole seconds from the beginning of the first step.
 */
export interface TemperatureCourse {
  readonly everyS: number;
  readonly lye: readonly (MilliCelsius | null)[];
  readonly oils: readonly (MilliCelsius | null)[];
  /** Where another law of cooling began, and when that was noticed. */
  readonly marks?: readonly { readonly of: 'lye' | 'oils'; readonly turn: Turn; readonly since: number; readonly noticed: number }[];
  readonly foretold?: MeetingForetold;
}

/** The first meeting foretold after the newest change: when, and each way with its 95 % interval, seconds from `at`. */
export interface MeetingForetold {
  readonly at: number;
  readonly meets: { readonly low: number; readonly middle: number; readonly high: number };
  readonly lye: readonly ForetoldStep[];
  readonly oils: readonly ForetoldStep[];
}

export interface ForetoldStep {
  readonly after: number;
  readonly low: MilliCelsius;
  readonly middle: MilliCelsius;
  readonly high: MilliCelsius;
}
