import type { BarsRow } from '#lib/protocol/bars';
import type { Unfollowed } from '#lib/work/bars/cure';
import { on } from '../../_ui/classes';
import type { Cure } from '../../_ui/cure/use-cure';
import { messages } from '../messages';
import { CureLine, spanOf } from './cure-line';

/** One lot's way from its cut to the day it is ready, on the calendar. What it shows is said above it. */
export function LotWay({ row, cure, now }: { readonly row: BarsRow; readonly cure: Cure | Unfollowed; readonly now: number | null }) {
  const span = spanOf([row], () => cure, now);
  if (span === null || now === null) return null;
  return (
    <div className={on('gap')}>
      <CureLine axis span={span} now={now} />
      <CureLine row={row} cure={cure} span={span} now={now} />
      <p className={on('dim')}>{messages.curing.key}</p>
    </div>
  );
}
