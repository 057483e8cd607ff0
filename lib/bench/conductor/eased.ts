import { mg } from '#lib/units/mass';
import type { Eased } from '#lib/work/batch/index';
import type { BenchView } from '../conductor-types';
import type { EasedMemory } from './memory';

/** A hand that heeds the cue has stopped by then, ms; the scale's own delay comes on top. */
const HEEDED_MS = 2500;
/** Less than this share of the flow at the cue is a thread or drops, no pouring on. */
const THREAD = 0.25;

interface Flowing {
  readonly now: number;
  readonly net: number;
  /** mg per ms. */
  readonly rate: number;
  /** Less than this is no movement, mg. */
  readonly still: number;
  readonly rise: number;
}

/** The cue of a pour that moves: it teaches nothing when the hand poured on in spite of it, or took the jug up again after a rest. */
export const stopping = (eased: EasedMemory | null, { now, net, rate, still, rise }: Flowing): EasedMemory | null => {
  if (eased === null) return null;
  if (eased.rest !== null) return Math.abs(net - eased.rest) > still ? null : eased;
  return now - eased.at > HEEDED_MS + rise && rate > THREAD * eased.rate ? null : eased;
};

/** The same at rest. */
export const atRest = (eased: EasedMemory | null, net: number): EasedMemory | null =>
  eased === null || eased.rest !== null ? eased : { ...eased, rest: net };

/** As it goes into the record with the weight; nothing when nothing flowed, or nobody knows whose hand it was. */
export const easedFor = (eased: EasedMemory | null, hand: BenchView['hand']): Eased | null => {
  const rate = eased === null ? 0 : Math.round(1000 * eased.rate);
  if (eased === null || hand === undefined || rate <= 0) return null;
  return { hand: hand.person, net: mg(Math.round(eased.net)), coming: mg(Math.round(eased.coming)), rate };
};
