import type { NoForecast } from '../cooling/types';

/** On which terms lye and oils are joined, °C. As the formula says. */
export interface Terms {
  readonly low: number;
  readonly high: number;
  /** Where the oils begin to set, and how far above that they are kept; `null`: not known, or they do not. */
  readonly setsAt: number | null;
  readonly settingMargin: number;
  /** Where `setsAt` is not known: below this a fat may begin to set, by its melting range. Told, and holds nothing. */
  readonly maySetBelow?: number | null;
  readonly apart: number;
  readonly apartLevel: 'hold' | 'advise';
  /** Above it a milk in the lye scorches; `null` without one. */
  readonly milkLimit: number | null;
}

/** What goes into the pot before it is joined: its share of the heat capacity of all oils, and its temperature. */
export interface ToCome {
  readonly share: number;
  readonly celsius: number;
}

/** Seconds from now, 2.5, 50 and 97.5 in 100. */
export interface Span {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

/** `met`: so now. `in`: within this span. `not-before`: sooner than this only once in 40. `never`: not by themselves within three hours. */
export type When =
  | { readonly kind: 'met' }
  | ({ readonly kind: 'in' } & Span)
  | { readonly kind: 'not-before'; readonly after: number }
  | { readonly kind: 'never' };

/** What would bring them together. Oils are never told to be cooled: they might set, and set oils look like trace. */
export type Act = {
  /** °C of what is in the vessel now, before anything is poured in. */
  readonly to: number;
  /** Seconds from now at which to begin; 0: now. */
  readonly start: number;
  /** What becomes of the meeting, the act itself taken as done at once. */
  readonly meets: When;
} & ({ readonly vessel: 'lye'; readonly kind: 'warm' | 'cool' } | { readonly vessel: 'oils'; readonly kind: 'warm' });

/** Oils that begin to set before they meet the lye, by themselves. `high`: `null` where it may not come within three hours. */
export interface SettingSoon {
  /** `maker`: where the blend was seen to set. `melting`: where the hardest of its fats is melted through, which in a blend sets lower. */
  readonly by: 'maker' | 'melting';
  readonly in: { readonly low: number; readonly middle: number; readonly high: number | null };
  /** What the pot is to be warmed to now so as to hold out until the meeting; `null` where no temperature of the window does. */
  readonly warmTo: number | null;
}

/** What stands against joining, by its temperatures. `advise`: said, and holds nothing. */
export interface Against {
  readonly reason: 'lye-too-hot' | 'lye-too-cold' | 'oils-too-hot' | 'oils-near-setting' | 'milk-too-hot' | 'apart';
  readonly level: 'hold' | 'advise';
}

export type Meeting =
  | {
      readonly kind: 'meeting';
      /** Both in the window and within the allowed difference. */
      readonly when: When;
      /** Nothing holds them: the same, or sooner where a formula only advises against vessels that are apart. */
      readonly joinable: When;
      /** What stands against it now; empty when they are met. */
      readonly against: readonly Against[];
      /** The one that helps soonest first; none while they are met. */
      readonly acts: readonly Act[];
      readonly setting: SettingSoon | null;
    }
  | { readonly kind: 'none'; readonly lye: NoForecast | null; readonly oils: NoForecast | null };
