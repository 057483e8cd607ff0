import type { Scale } from './scale';
import { massOf } from './vessel';
import type { Vessel } from './vessel';

/** One scale's pan: what truly stands on it, and the forces of hands and falling material that a scale cannot tell from mass. */
export interface Pan {
  standing: Vessel | null;
  /** How much of the vessel the pan bears, 0 to 1: a hand still holds the rest while it sets down or lifts. */
  borne: number;
  /** Drops on the glass, mg. */
  wet: number;
  /** A probe, spoon or cable that leans on it, mg. */
  leaning: number;
  /** Passing forces, mg: the knock of setting down, the push of a stream that arrives. */
  push: number;
}

/** One scale with what is on it. */
export interface Weighing {
  readonly pan: Pan;
  readonly scale: Scale;
}

export const emptyPan = (): Pan => ({ standing: null, borne: 0, wet: 0, leaning: 0, push: 0 });

/** What the pan truly carries, whole mg. */
export const carried = (pan: Pan): number =>
  (pan.standing === null ? 0 : Math.round(massOf(pan.standing) * pan.borne)) + pan.wet + pan.leaning;

export const forceOn = (pan: Pan): number => carried(pan) + pan.push;
