'use client';
import { numberText } from '#lib/units/format';
import type { Planned } from '#lib/work/formula/index';
import { useDisplay } from '../../_live/use';
import { showIn } from '#lib/words/quantities';
import { dateText } from '#lib/words/times';
import { on } from '../classes';
import { messages } from '../messages-sheet';
import { usePrintDay } from './use-print-day';
import { useSheet } from './use-sheet';

/** On paper only: what a person with the weigh sheet in hand wants to know of the whole, and a place for the day and the hand. */
export function WeighHead({ plan }: { readonly plan: Planned }) {
  const { draft, dirty } = useSheet();
  const display = useDisplay();
  const day = usePrintDay();
  const { locale } = display;
  const show = showIn(display);
  const { lead, printed: words } = messages;
  const { superfat, lyeConcentration, fats } = plan.figures;
  const percent = (value: number): string => numberText(100 * value, locale, 1);
  const moulds = (plan.sizing?.moulds ?? []).map(({ name, count, full }) => words.mould(count, name, percent(full)));
  return (
    <div className={on('printed')}>
      <p>{`${show.mass(Math.round(1000 * fats), 100)}${lead.fats}${show.mass(plan.total, 100)}${lead.batter}`}</p>
      <p>{words.figures(percent(superfat.working), percent(lyeConcentration))}</p>
      {moulds.length === 0 ? null : <p>{moulds.join('; ')}</p>}
      <p>{words.day(dateText(day, { offsetMin: null, locale }), messages.standing(draft.base, dirty))}</p>
      <p>{words.hand}</p>
    </div>
  );
}
