import type { ScaleRole } from '#lib/measure/instrument';

/** What a simulated scale is like. Masses in mg, times in ms. */
export interface ScaleModel {
  readonly capacity: number;
  readonly division: number;
  /** How the load cell and its mount follow a load: one lag, or a damped swing. `ms` is the time constant 1/ω. */
  readonly settling:
    ({ readonly order: 1 } & { readonly ms: number }) | { readonly order: 2; readonly ms: number; readonly damping: number };
  /** Length of the scale's own moving average: half of it is the delay a pourer sees. */
  readonly filterMs: number;
  /** White noise left after that filter, standard deviation. */
  readonly noise: number;
  /** Share of a load that the cell still gives way by, and how slowly. */
  readonly creep: { readonly share: number; readonly tauMs: number };
  /** Wandering zero: never further than `limit` from true. */
  readonly drift: { readonly limit: number; readonly tauMs: number };
  /** Someone walks by: bursts of 5 to 30 Hz. */
  readonly vibration: { readonly everyMs: number; readonly amplitude: number; readonly ms: number };
  /** The stable mark: what is shown stayed within `band` for `windowMs`. */
  readonly motion: { readonly windowMs: number; readonly band: number };
  /** How often the display makes a new figure. */
  readonly updateMs: number;
}

/** A scale of this size as good small balances are: noise, creep and drift together stay below one division over a weigh-in. */
export const scaleModel = (capacity: number, division: number): ScaleModel => ({
  capacity,
  division,
  settling: { order: 2, ms: 80, damping: 1 },
  filterMs: 300,
  noise: 0.08 * division,
  creep: { share: 6e-6, tauMs: 240_000 },
  drift: { limit: 0.1 * division, tauMs: 600_000 },
  vibration: { everyMs: 240_000, amplitude: 3 * division, ms: 900 },
  motion: { windowMs: 600, band: 1.05 * division },
  updateMs: 100,
});

/** The two scales of the invented workshop: 5 kg in 0.1 g, and 300 g in 0.01 g. */
export const WORKSHOP_SCALES: Readonly<Record<ScaleRole, ScaleModel>> = {
  main: scaleModel(5_000_000, 100),
  fine: scaleModel(300_000, 10),
};

/** No indication above capacity + 9 divisions; below −20 divisions the scale says so too (OIML R 76-1, 4.2.3 for the first, from memory). */
export const OVER_BY = 9;
export const UNDER_BY = 20;
