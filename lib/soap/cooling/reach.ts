import type { Ahead } from './types';

/** When a falling vessel comes down to a temperature: at the soonest, probably, at the latest. `null`: not within three hours. */
export interface Reach {
  readonly low: number | null;
  readonly middle: number | null;
  readonly high: number | null;
}

export const comesDownTo = (ahead: readonly Ahead[], celsius: number): Reach => {
  const when = (edge: 'low' | 'middle' | 'high'): number | null => {
    const i = ahead.findIndex((one) => one[edge] <= celsius);
    const [before, there] = [ahead[i - 1], ahead[i]];
    if (there === undefined) return null;
    if (before === undefined) return there.after;
    return before.after + ((there.after - before.after) * (before[edge] - celsius)) / (before[edge] - there[edge]);
  };
  return { low: when('low'), middle: when('middle'), high: when('high') };
};
