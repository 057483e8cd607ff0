import { celsius, milliKelvin } from '#lib/units/temperature';
import type { JoiningPlan } from '../batch/plan';
import type { Facts } from './facts';
import type { Model } from './model';

/** Above this a milk scorches in lye: common practice, no source. */
const MILK_LIMIT = 40;
export const PRACTICE = 'common practice, no source';

/** Stirred in later it never meets hot lye. */
const hasMilk = ({ items }: Model): boolean => items.some((item) => item.class === 'milk' && item.part !== 'extra');

/** °C; `null` without a liquid that scorches. */
export const milkLimitOf = (model: Model, { joining }: Facts): number | null => (hasMilk(model) ? (joining.milkLimit ?? MILK_LIMIT) : null);

/** `setsBelow`: the warmest at which a fat of it may begin to set by its melting range, °C; it counts where the maker has not said. */
export const joiningPlan = (model: Model, facts: Facts, setsBelow: number | null): JoiningPlan => {
  const { low, high, apart, apartLevel, setsAt, said } = facts.joining;
  const milk = milkLimitOf(model, facts);
  return {
    window: { low: celsius(low), high: celsius(high) },
    allowedApart: milliKelvin(Math.round(apart * 1000)),
    apartLevel,
    oilsSetAt: setsAt === null ? null : celsius(setsAt),
    ...(setsAt === null && setsBelow !== null ? { mayStartToSet: celsius(setsBelow) } : {}),
    milkLimit: milk === null ? null : celsius(milk),
    source: said ? 'as this formula says' : PRACTICE,
  };
};
