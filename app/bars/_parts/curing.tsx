'use client';
import type { Route } from 'next';
import Link from 'next/link';
import type { BarsRow } from '#lib/protocol/bars';
import { shortDate } from '#lib/words/times';
import type { Unfollowed } from '#lib/work/bars/cure';
import type { CureKept } from '#lib/work/bars/documents';
import { numberText } from '#lib/units/format';
import { useDisplay } from '../../_live/use';
import { on } from '../../_ui/classes';
import { Blank } from '../../_ui/figures';
import type { Cure, CureOf } from '../../_ui/cure/use-cure';
import { Head } from '../../_ui/head';
import { PaperSection } from '../../_ui/section';
import { useNow } from '../../_ui/use-now';
import { messages } from '../messages';
import { CureLine, spanOf } from './cure-line';
import { daysSince, lotHref } from './stage';

interface Props {
  readonly rows: readonly BarsRow[];
  readonly rule: CureKept;
  readonly cureOf: CureOf;
}

/** The maker's rule in a sentence. */
const ruleWords = ({ days, perWeek }: CureKept): string => {
  const { curing } = messages;
  if (days !== null && perWeek !== null) return curing.both(days, perWeek);
  return days === null ? curing.loss(perWeek ?? '') : curing.days(days);
};

/** The lot whose next weighing is due, and would say most. */
const toWeigh = (rows: readonly BarsRow[], cureOf: CureOf, now: number): BarsRow | null => {
  const due = rows.flatMap((row) => {
    const cure = cureOf(row);
    if (typeof cure === 'string') return cure === 'no-weight' ? [{ row, narrows: 1 }] : [];
    if (cure.followed.basis === 'expected') return [{ row, narrows: 1 }];
    const next = cure.forecast?.next ?? null;
    return next !== null && daysSince(cure.followed.from, now) >= next.day ? [{ row, narrows: next.narrows }] : [];
  });
  return due.toSorted((a, b) => b.narrows - a.narrows)[0]?.row ?? null;
};

/** Lots on their way to being ready, each with what it has lost and the day it will be, nine times in ten. */
export function Curing({ rows, rule, cureOf }: Props) {
  const now = useNow();
  const { curing } = messages;
  const { heads, unit } = curing;
  const span = spanOf(rows, cureOf, now);
  const weigh = now === null ? null : toWeigh(rows, cureOf, now);
  return (
    <PaperSection
      name={curing.title}
      note={
        <>
          <p>
            {ruleWords(rule)} {curing.rules}
          </p>
          {weigh === null ? null : (
            <p>
              <b>{curing.weigh(weigh.mark)}</b>
            </p>
          )}
        </>
      }
    >
      <table className={on('table')}>
        <caption className="unseen">{curing.title}</caption>
        <thead>
          <tr>
            <Head name={heads.lot} />
            <Head name={heads.weighed} n wide />
            <Head name={heads.lost} unit={unit.lost} n />
            <th scope="col" className={on('wide')}>
              <span className="unseen">{curing.key}</span>
              {span === null || now === null ? null : <CureLine axis span={span} now={now} />}
            </th>
            <Head name={heads.ready} unit={unit.ready} />
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <Row key={row.id} row={row} cure={cureOf(row)} span={span} now={now} />
          ))}
        </tbody>
      </table>
      <p className={on('dim gap wide')}>{curing.key}</p>
    </PaperSection>
  );
}

/** The drawing stands beside the row, not on its line of writing. */
const MIDDLE = { verticalAlign: 'middle' };

interface RowProps {
  readonly row: BarsRow;
  readonly cure: Cure | Unfollowed;
  readonly span: readonly [number, number] | null;
  readonly now: number | null;
}

function Row({ row, cure, span, now }: RowProps) {
  const { locale } = useDisplay();
  const { curing } = messages;
  const last = row.weighings.at(-1);
  return (
    <tr data-lot={row.id}>
      <th scope="row">
        <Link href={lotHref(row.id) as Route} prefetch={false}>
          <span className={on('mark')}>{`${row.mark} `}</span>
          {row.formula.name}
        </Link>
      </th>
      <td className={on('n wide')}>{last === undefined ? curing.never : shortDate(last.wall, { offsetMin: null, locale })}</td>
      {last === undefined ? (
        <Blank className={on('n')} />
      ) : (
        <td className={on('n')}>{numberText(100 * (1 - last.sum / last.first), locale, 1)}</td>
      )}
      <td className={on('wide')} style={MIDDLE}>
        {span === null || now === null ? null : <CureLine row={row} cure={cure} span={span} now={now} />}
      </td>
      <td>
        <Ready cure={cure} />
      </td>
    </tr>
  );
}

const DAY_MS = 86_400_000;

/** The likely day, and the two it lies between nine times in ten. */
export function Ready({ cure }: { readonly cure: Cure | Unfollowed }) {
  const { locale } = useDisplay();
  const { curing } = messages;
  if (typeof cure === 'string') return <span className={on('none')}>{curing.why[cure]}</span>;
  if (cure.forecast === undefined) return <output className={on('none')}>{curing.working}</output>;
  if (cure.forecast === null) return <span className={on('none')}>{curing.why['no-weight']}</span>;
  const { ready } = cure.forecast;
  const say = (day: number | 'later'): string =>
    day === 'later' ? curing.later : shortDate(cure.followed.from + day * DAY_MS, { offsetMin: null, locale });
  return (
    <>
      <b>{say(ready.middle)}</b>
      <br />
      <small className={on('nw')}>{ready.low === ready.high ? null : curing.within(say(ready.low), say(ready.high))}</small>
    </>
  );
}
