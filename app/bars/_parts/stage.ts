import type { BarsRow } from '#lib/protocol/bars';
import { readyByDays, ruleOf } from '#lib/work/bars/cure';
import type { CureKept } from '#lib/work/bars/documents';
import { isOut } from '#lib/work/bars/due';
import type { Cure } from '../../_ui/cure/use-cure';

/** Where a lot is on its way: in its mould, whole, curing, or on the shelf. */
export type Stage = 'mould' | 'whole' | 'curing' | 'ready';

const DAY_MS = 86_400_000;

/** Days since day 0 of what is followed. */
export const daysSince = (from: number, now: number): number => Math.max(0, Math.floor((now - from) / DAY_MS));

/** Ready on its likely day; what cannot be forecast counts as curing until somebody says otherwise. */
export const isReady = (cure: Cure | string, now: number | null): boolean => {
  if (typeof cure === 'string' || cure.forecast == null || now === null) return false;
  const { middle } = cure.forecast.ready;
  return middle !== 'later' && daysSince(cure.followed.from, now) >= middle;
};

/** Wall time at which a lot of which nothing is forecast is ready all the same, by a rule of days alone; `null`: nobody can say. */
export const readyAt = (row: Pick<BarsRow, 'cut'>, cure: Cure | string, rule: CureKept): number | null => {
  if (typeof cure !== 'string' && cure.forecast !== null) return null;
  const by = readyByDays(row, ruleOf(rule));
  return by === null || by.ready.middle === 'later' ? null : by.from + by.ready.middle * DAY_MS;
};

export const stageOf = (row: BarsRow, cure: Cure | string, now: number | null, rule: CureKept): Stage => {
  if (row.cut === null) return isOut(row) ? 'whole' : 'mould';
  const at = readyAt(row, cure, rule);
  return isReady(cure, now) || (at !== null && now !== null && now >= at) ? 'ready' : 'curing';
};

/** Thrown away whole: only then is a log cut into no bar. There is nothing to follow, to count or to label. */
export const isThrownAway = ({ cut }: Pick<BarsRow, 'cut'>): boolean => cut?.count === 0;

export const lotHref = (id: string): string => `/bars/lot?id=${encodeURIComponent(id)}`;
