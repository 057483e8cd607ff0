'use client';
import type { Route } from 'next';
import Link from 'next/link';
import { numberText } from '#lib/units/format';
import { dateText, shortDate } from '#lib/words/times';
import type { Unfollowed } from '#lib/work/bars/cure';
import type { CureKept } from '#lib/work/bars/documents';
import { useDisplay } from '../../_live/use';
import { on } from '../../_ui/classes';
import type { Cure } from '../../_ui/cure/use-cure';
import { PaperTitle } from '../../_ui/section';
import { lotMessages } from '../messages-lot';
import type { LotProps } from './lot-props';
import { LotWay } from './lot-way';
import { batchWords } from './realm-words';
import { isReady, isThrownAway, readyAt, stageOf } from './stage';

interface Props extends Pick<LotProps, 'page'> {
  readonly cure: Cure | Unfollowed;
  readonly rule: CureKept;
  readonly now: number | null;
}

/** The lot, and in two sentences where it is. */
export function LotTitle({ page, cure, rule, now }: Props) {
  const { locale } = useDisplay();
  const { row, state } = page;
  const { side } = lotMessages;
  return (
    <PaperTitle
      title={row.formula.name}
      lead={leadOf(page, cure, rule, now, locale)}
      side={
        <>
          <p className={on('id')}>{row.mark}</p>
          <p>{side.of(row.mould.name, row.moulds)}</p>
          {row.pattern === '' ? null : <p>{side.pattern(row.pattern)}</p>}
          <p>{side.poured(dateText(row.poured, { offsetMin: null, locale }))}</p>
          <p>
            <Link href={`/batches/review?id=${encodeURIComponent(row.batch)}` as Route} prefetch={false}>
              {side.batch} {state.of.mark}
            </Link>
          </p>
          <p>
            <b>{state.realm === 'real' ? null : batchWords[state.realm]}</b>
          </p>
        </>
      }
    >
      {isThrownAway(row) ? null : <LotWay row={row} cure={cure} now={now} />}
    </PaperTitle>
  );
}

const DAY_MS = 86_400_000;

const leadOf = ({ row }: LotProps['page'], cure: Cure | Unfollowed, rule: CureKept, now: number | null, locale: string): string => {
  const { lead } = lotMessages;
  if (isThrownAway(row)) return lead.thrownAway;
  const stage = stageOf(row, cure, now, rule);
  if (stage === 'mould' || stage === 'whole') return lead[stage];
  const held = row.held === null ? [] : [lead.held(row.held)];
  const last = row.weighings.at(-1);
  const lost = last === undefined || last.first === last.sum ? [] : [lead.lost(numberText(100 * (1 - last.sum / last.first), locale, 1))];
  return [...held, readyWords(cure, readyAt(row, cure, rule), now, locale), ...lost, lead.counts(row.counts.shelf, row.counts.made)].join(
    ' ',
  );
};

const readyWords = (cure: Cure | Unfollowed, at: number | null, now: number | null, locale: string): string => {
  const { lead } = lotMessages;
  if (at !== null) {
    const day = shortDate(at, { offsetMin: null, locale });
    return now !== null && now >= at ? lead.isReady(day) : lead.byDays(day);
  }
  if (typeof cure === 'string' || cure.forecast == null) return lead.unknown;
  const { ready } = cure.forecast;
  if (ready.middle === 'later') return lead.late;
  const say = (day: number | 'later'): string =>
    shortDate(cure.followed.from + (day === 'later' ? 120 : day) * DAY_MS, { offsetMin: null, locale });
  return isReady(cure, now) ? lead.isReady(say(ready.middle)) : lead.ready(say(ready.middle), say(ready.low), say(ready.high));
};
