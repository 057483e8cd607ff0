import type { ScaleRole } from '#lib/measure/instrument';
import { chance } from './chance';

/** What one scale is like beside its division: drawn from the story's seed, and not told to the bench. */
export interface Nature {
  /** Of a settled figure, in divisions: never, one in 8 % of the frames, or up to two in half of them. */
  readonly noise: 'none' | 'little' | 'much';
  /** The display counts by so many of its last digit. */
  readonly counts: 1 | 2 | 5;
  /** Above this load, mg, the division is so many times as coarse; ten times: with a digit less shown. */
  readonly coarser: { readonly above: number; readonly times: 2 | 5 | 10 } | null;
  /** From 15 to 85 % of a set-down, ms, by one pole; 0: one reading on the way, whatever the rhythm. */
  readonly rise: number;
  /** The figure wanders by so many divisions a minute. */
  readonly drift: number;
  /** The mark of rest comes at once and lies. */
  readonly early: boolean;
  /** Frames come so much too soon or too late, as a share of the interval. */
  readonly jitter: number;
  /** Frames come two in one chunk. */
  readonly pairs: boolean;
  /** In another unit than grams it counts in round steps of that unit, and not in rounded grams. */
  readonly ownSteps: boolean;
  /** Nobody said its division. */
  readonly untold: boolean;
}

/** Two scales in five are the plain one: the stories that were found with it keep their meaning. */
export const PLAIN: Nature = {
  noise: 'little',
  counts: 1,
  coarser: null,
  rise: 0,
  drift: 0,
  early: false,
  jitter: 0,
  pairs: false,
  ownSteps: false,
  untold: false,
};

const LOADS: Readonly<Record<ScaleRole, readonly number[]>> = {
  main: [100_000, 300_000, 690_000, 760_000],
  fine: [60_000, 100_000, 104_000, 150_000],
};

const DRAW_APART = 7_919;

/** Of a scale that is not plain each trait is drawn by itself, so that most have two or three. */
export const natureOf = (seed: number, role: ScaleRole): Nature => {
  const next = chance(seed * 2 + (role === 'main' ? 0 : 1) + DRAW_APART);
  if (seed === 0 || next() < 0.4) return PLAIN;
  const one = <T>(among: readonly [T, ...T[]]): T => among[Math.floor(next() * among.length)] ?? among[0];
  const some = <T>(share: number, plain: T, among: readonly [T, ...T[]]): T => (next() < share ? one(among) : plain);
  const times = some<2 | 5 | 10 | null>(0.4, null, [2, 5, 5, 10]);
  const above = LOADS[role][Math.floor(next() * LOADS[role].length)] ?? 0;
  return {
    noise: one(['none', 'little', 'much']),
    counts: times === null ? some<1 | 2 | 5>(0.5, 1, [2, 5]) : 1,
    coarser: times === null ? null : { above, times },
    rise: next() < 0.5 ? Math.round(300 + next() * 1_200) : 0,
    drift: some(0.25, 0, [1, -1, 0.5, -0.5]),
    early: next() < 0.3,
    jitter: some(0.3, 0, [0.1, 0.3, 0.5]),
    pairs: next() < 0.2,
    ownSteps: next() < 0.5,
    untold: next() < 0.3,
  };
};

/** Of one pole: the time constant by which 15 to 85 % take so long. */
const POLE = Math.log(0.85 / 0.15);

/** A reading that follows its load by one pole. Times in ms, masses in mg. */
export class Filter {
  readonly #constant: number;
  #value = 0;
  #at = 0;

  constructor(rise: number) {
    this.#constant = rise / POLE;
  }

  /** Where it has come to under this load by now. */
  follow(load: number, now: number): number {
    const gone = Math.max(0, now - this.#at);
    this.#at = now;
    this.#value = load + (this.#value - load) * (this.#constant === 0 ? 0 : Math.exp(-gone / this.#constant));
    return this.#value;
  }
}

const ROUND = [1, 2, 5, 10];

/** The round step of a unit that is not finer than so many mg: its mantissa and how many decimals it has. */
export const roundStep = (division: number, perUnit: number): { readonly step: number; readonly decimals: number } => {
  const decimals = Math.max(0, Math.ceil(Math.log10(perUnit / division)));
  const last = perUnit / 10 ** decimals;
  const times = ROUND.find((one) => one * last >= division * 0.999) ?? 10;
  return { step: times * last, decimals };
};
