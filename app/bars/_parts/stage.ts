import type { BarsRow } from '#lib/protocol/bars';
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

export const stageOf = (row: BarsRow, cure: Cure | string, now: number | null): Stage => {
  if (row.cut === null) return isOut(row) ? 'whole' : 'mould';
  return isReady(cure, now) ? 'ready' : 'curing';
};

export const lotHref = (id: string): string => `/bars/lot?id=${encodeURIComponent(id)}`;
