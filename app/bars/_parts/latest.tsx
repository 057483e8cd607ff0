'use client';
import type { BarsRow } from '#lib/protocol/bars';
import { shortMoment } from '#lib/words/times';
import { cutBefore } from '#lib/work/bars/due';
import { useDisplay } from '../../_live/use';
import { on } from '../../_ui/classes';
import type { BarsThere } from '../../_ui/cure/use-bars';
import { useNow } from '../../_ui/use-now';
import { messages } from '../messages';
import { latestWords } from '../messages-unmould';

/** By when it wants to be cut, where anything is known of that. */
export function Latest({ row, there }: { readonly row: BarsRow; readonly there: BarsThere }) {
  const now = useNow();
  const { locale } = useDisplay();
  const said = there.unmould.get(row.formula.id) ?? null;
  const before = cutBefore(row, said);
  if (before === null || said?.latestCut == null)
    return row.cut === null && (row.traits.salt || row.traits.wax) ? <p className={on('dim')}>{messages.moulds.crumbles}</p> : null;
  const when = shortMoment(before, { offsetMin: null, locale });
  return now !== null && now > before ? (
    <p className={on('warn')}>{latestWords.past(when, said.latestCut)}</p>
  ) : (
    <p>
      <b>{latestWords.ahead(when, said.latestCut)}</b>
    </p>
  );
}
