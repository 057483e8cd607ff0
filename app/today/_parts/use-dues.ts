import { cutBefore, dueOf } from '#lib/work/bars/due';
import { windowOf } from '#lib/work/bars/unmould';
import { useBars } from '../../_ui/cure/use-bars';
import { useCure } from '../../_ui/cure/use-cure';
import { useNow } from '../../_ui/use-now';
import type { DueLot } from './grouped';

const HOUR_MS = 3_600_000;
const NOTHING: readonly never[] = [];

/** What each lot of bars wants of somebody now; nothing while it is being worked out. */
export const useDues = (): readonly DueLot[] => {
  const { there } = useBars();
  const time = useNow();
  const now = time === null ? null : time - (time % HOUR_MS);
  const cureOf = useCure(there?.open ?? NOTHING, there?.all ?? NOTHING, there?.rule ?? null, now);
  if (there === null || now === null) return NOTHING;
  return there.open.flatMap((row) => {
    const cure = cureOf(row);
    const forecast = typeof cure === 'string' || cure.forecast == null ? null : { from: cure.followed.from, is: cure.forecast };
    const said = there.unmould.get(row.formula.id) ?? null;
    const window = windowOf(row, there.all, said);
    const before = cutBefore(row, said);
    return dueOf(row, { window, photos: there.rule.photos, forecast, now }).map((what) => ({ row, what, before }));
  });
};
