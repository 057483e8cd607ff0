import { sumOfAll } from '#lib/units/sum';
import { LAST_DAY } from './types';
import type { CureWatch, NextWeighing } from './types';

/** Days after which a weighing tells most, before the ready date itself is near: lateness matters more than number. Tried in simulation. */
const USUAL = [7, 14, 28];
/** A weighing this near, as a share of the day, stands for it. */
const NEAR = 0.25;
/** Ready dates nearer together than this, in days, are not worth another weighing. */
const SETTLED = 3;

const spreadOf = (values: readonly number[]): number => {
  const mean = sumOfAll(values) / values.length;
  return Math.sqrt(values.reduce((sum, one) => sum + (one - mean) ** 2, 0) / values.length);
};

/** How much of the ready days' spread goes with the loss on a day, beyond the weighing's own error: 1 − √(1 − ρ²). */
const narrowedBy = (paths: readonly ArrayLike<number>[], ready: readonly number[], day: number, noise: number): number => {
  const losses = paths.map((path) => path[day] as number);
  const [sl, sr] = [Math.hypot(spreadOf(losses), noise), spreadOf(ready)];
  if (sl === 0 || sr === 0) return 0;
  const [ml, mr] = [losses, ready].map((all) => sumOfAll(all) / all.length) as [number, number];
  const together = losses.reduce((sum, loss, i) => sum + (loss - ml) * ((ready[i] as number) - mr), 0) / losses.length;
  return 1 - Math.sqrt(Math.max(0, 1 - (together / (sl * sr)) ** 2));
};

/**
 * When the next weighing is most worth making: the usual days first, then near the ready date's middle.
 * @param ready the rule's day on each path, infinity for none. @param middle of those days.
 */
export const nextWeighing = (
  watch: CureWatch,
  today: number,
  paths: readonly ArrayLike<number>[],
  ready: readonly number[],
  middle: number,
): NextWeighing | null => {
  const days = watch.weighings.map(({ day }) => day);
  const done = (target: number): boolean => days.some((day) => Math.abs(day - target) <= NEAR * target);
  const finite = ready.map((day) => Math.min(day, LAST_DAY + 1));
  const last = days.at(-1) ?? watch.from ?? 0;
  const usual = USUAL.find((day) => day >= today && day > last && !done(day));
  const settled = spreadOf(finite) < SETTLED;
  const near = Math.min(LAST_DAY, Number.isFinite(middle) ? Math.max(Math.round(middle), today) : LAST_DAY);
  const target = usual ?? (settled || near <= last + 1 ? null : near);
  if (target === null) return null;
  const day = Math.min(LAST_DAY, Math.max(1, Math.ceil(target)));
  const noise = watch.step / Math.sqrt(6 * watch.bars) / watch.cutWeight;
  return { day, narrows: narrowedBy(paths, finite, day, noise) };
};
