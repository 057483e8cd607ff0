import type { Mark, NoForecast } from '#lib/soap/cooling/types';
import type { Act, Against, When } from '#lib/soap/meeting/types';

/**
 * Where the two vessels are going, as a screen draws it: newest wins, never stored as truth, made anew with every block of readings (20 s).
 * Temperatures in thousandths of a degree; times in whole seconds: those from now counted from `at`, others on the server's clock.
 */
export interface ForecastLane {
  readonly boot: string;
  /** Server monotonic ms when it was made. */
  readonly at: number;
  readonly batch: string | null;
  readonly lye: VesselLane;
  readonly oils: VesselLane;
  /** How hot the lye gets, before it is made and after; `null` where it is not known. */
  readonly making: MakingLane | null;
  /** The probes look swapped: only a suspicion. */
  readonly swapped: boolean;
  /** `null`: nothing is to meet: no batch, a pot without oils or with hard ones still to melt, lye not made, or joined already. */
  readonly meeting: MeetingLane | null;
}

/** Thousandths of a degree; `u` one standard uncertainty. */
export interface PeakLane {
  readonly value: number;
  readonly u: number;
}

export interface MakingLane {
  /** What the liquid has, or had when the hydroxide went in. */
  readonly start: number;
  /** With the jug warmed along, no heat lost; and the bound that locks go by. */
  readonly likely: PeakLane;
  readonly atMost: PeakLane;
  /** How to start so that a milk does not scorch; `null` without one, and once the lye is made. */
  readonly advice:
    | { readonly kind: 'as-it-is' | 'in-portions' }
    /** Thousandths of a degree. */
    | { readonly kind: 'cold'; readonly celsius: number }
    /** Percent of the water. */
    | { readonly kind: 'frozen'; readonly percent: number }
    | null;
  /** What then happened; `null` until the lye has passed its top. `reached`: percent of the rise foretold. */
  readonly found: { readonly highest: number; readonly verdict: 'as-foretold' | 'below' | 'above'; readonly reached: number } | null;
}

export interface VesselLane {
  readonly outlook: OutlookLane;
  /** Changes that were noticed, newest last; `since` and `noticed` in seconds of the server's clock, as `at` / 1000. */
  readonly marks: readonly Mark[];
}

export type OutlookLane =
  | {
      readonly kind: 'forecast';
      /** Seconds of the server's clock since when its law holds. */
      readonly since: number;
      /** Seconds from now up to which the interval is narrow enough to be told. */
      readonly until: number;
      readonly setting: boolean;
      /** Rows of seconds from now, low, middle, high (95 in 100 between the outer two); straight between rows. */
      readonly ahead: readonly (readonly [after: number, low: number, middle: number, high: number])[];
    }
  /** `blocks` of `needed` were heard under the newest law: "not enough yet". */
  | { readonly kind: 'none'; readonly why: NoForecast; readonly blocks: number; readonly needed: number };

export type MeetingLane =
  | {
      readonly kind: 'meeting';
      readonly when: When;
      readonly joinable: When;
      readonly against: readonly Against[];
      /** `to` in thousandths of a degree, `start` in seconds from now. */
      readonly acts: readonly Act[];
      readonly setting: {
        /** As the maker has seen the blend set, or only by the melting range of its hardest fat. */
        readonly by: 'maker' | 'melting';
        readonly low: number;
        readonly middle: number;
        readonly high: number | null;
        /** Thousandths of a degree. */
        readonly warmTo: number | null;
      } | null;
    }
  | { readonly kind: 'none'; readonly lye: NoForecast | null; readonly oils: NoForecast | null };
