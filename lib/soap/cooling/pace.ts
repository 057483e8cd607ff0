import { predict } from './mixture';
import type { Fit } from './fit';
import type { Contents } from './types';

/** The power by which a pace is compared over a falling difference: still air. */
const POWER = 1.25;
/** Seconds over which the pace is read off the fit. */
const OVER_S = 20;
/** A pace is watched from so far above where a fat may set, K. */
const NEAR = 3;
/** Share of its own pace below which a vessel may be setting, and below which it is. */
const SLOWED = 0.9;
const STALLED = 0.5;
/** How far a pace is taken to have been faster than seen. */
const FASTER = 1.15;

/** How fast a vessel cools now, per second, as k of the law with this power; `null` at its room. */
export const paceOf = (fit: Fit, room: number): number | null => {
  const now = predict(fit, 0).mean;
  const u = now - room;
  return u < 1 ? null : (now - predict(fit, OVER_S).mean) / OVER_S / u ** POWER;
};

/** The pace this vessel had before anything slowed it. */
export const keepPace = (known: number | null, now: number | null): number | null => (known === null ? now : Math.max(known, now ?? 0));

/** Whether it has slowed as oils do where a fat sets. */
export const slowed = (contents: Contents, known: number | null, now: number | null, celsius: number): 'no' | 'maybe' | 'stalls' => {
  if (contents.kind !== 'oils' || contents.setsBelow === null || known === null || now === null) return 'no';
  if (celsius > contents.setsBelow + NEAR) return 'no';
  if (now < STALLED * known && celsius <= contents.setsBelow) return 'stalls';
  return now < SLOWED * known ? 'maybe' : 'no';
};

/** Where it would be if it cooled on at its own pace after all, °C. */
export const atOwnPace = (known: number, from: number, room: number, after: number): number => {
  const u = from - room;
  if (u <= 0) return from;
  // u′ = −k u^1.25, so u^−¼ grows by k/4 every second.
  return room + (u ** (1 - POWER) + (POWER - 1) * FASTER * known * after) ** (1 / (1 - POWER));
};
