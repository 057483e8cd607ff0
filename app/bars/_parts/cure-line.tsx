import { scaleTime } from 'd3-scale';
import type { BarsRow } from '#lib/protocol/bars';
import type { Unfollowed } from '#lib/work/bars/cure';
import { monthText, shortDate } from '#lib/words/times';
import { useDisplay } from '../../_live/use';
import { on } from '../../_ui/classes';
import type { Cure, CureOf } from '../../_ui/cure/use-cure';
import { messages } from '../messages';

const DAY_MS = 86_400_000;
const HEIGHT = 32;
const MIDDLE = HEIGHT / 2;
const AXIS = 40;
/** What is not forecast yet takes so long, for the width of the drawing alone. */
const USUAL_DAYS = 45;
const LAST_DAY = 120;

const percent = (value: number): string => `${value}%`;
const dayOr = (day: number | 'later'): number => (day === 'later' ? LAST_DAY : day);

const endOf = (row: BarsRow, cure: Cure | Unfollowed): number => {
  const days = typeof cure === 'string' || cure.forecast == null ? USUAL_DAYS : dayOr(cure.forecast.ready.high);
  const from = typeof cure === 'string' ? (row.cut?.wall ?? row.poured) : cure.followed.from;
  return from + days * DAY_MS;
};

/** From the first cut to the last day that may be needed. */
export const spanOf = (rows: readonly BarsRow[], cureOf: CureOf, now: number | null): readonly [number, number] | null => {
  const cuts = rows.flatMap(({ cut }) => cut?.wall ?? []);
  if (cuts.length === 0 || now === null) return null;
  return [Math.min(...cuts) - DAY_MS, Math.max(now, ...rows.map((row) => endOf(row, cureOf(row)))) + DAY_MS];
};

interface Props {
  readonly span: readonly [number, number];
  readonly now: number;
  readonly axis?: boolean;
  readonly row?: BarsRow;
  readonly cure?: Cure | Unfollowed;
}

/** One lot's way on the calendar, or the calendar itself. */
export function CureLine({ span, now, axis = false, row, cure = 'not-cut' }: Props) {
  const { locale } = useDisplay();
  const x = scaleTime([span[0], span[1]], [2, 98]);
  const at = (wall: number): string => percent(x(wall));
  if (axis) return <Axis span={span} now={now} locale={locale} />;
  const cut = row?.cut?.wall ?? null;
  const forecast = typeof cure === 'string' ? null : (cure.forecast ?? null);
  const day = (n: number | 'later'): number => (typeof cure === 'string' ? now : cure.followed.from + dayOr(n) * DAY_MS);
  const ready = forecast?.ready ?? null;
  return (
    <svg className={on('drawing')} width="100%" height={HEIGHT} aria-hidden="true">
      {ready === null ? null : (
        <>
          <rect
            className={on('band')}
            x={at(day(ready.low))}
            width={percent(x(day(ready.high)) - x(day(ready.low)))}
            y={MIDDLE - 4}
            height={8}
          />
          <line className={on('axis')} x1={at(day(ready.low))} x2={at(day(ready.low))} y1={MIDDLE - 7} y2={MIDDLE + 7} />
          <line className={on('axis')} x1={at(day(ready.high))} x2={at(day(ready.high))} y1={MIDDLE - 7} y2={MIDDLE + 7} />
          <line className={on('faint')} x1={at(now)} x2={at(day(ready.middle))} y1={MIDDLE} y2={MIDDLE} />
        </>
      )}
      {cut === null ? null : <line className={on('axis')} x1={at(cut)} x2={at(now)} y1={MIDDLE} y2={MIDDLE} />}
      <line className={on('next')} x1={at(now)} x2={at(now)} y1={0} y2={HEIGHT} />
      {cut === null ? null : <circle className={on('axis')} cx={at(cut)} cy={MIDDLE} r={3.5} />}
      {row?.weighings.map(({ wall }) => (
        <circle key={wall} cx={at(wall)} cy={MIDDLE} r={2.5} />
      ))}
      {ready === null ? null : (
        <svg x={at(day(ready.middle))} y={MIDDLE}>
          <path d="M0 -5L5 0L0 5L-5 0Z" />
        </svg>
      )}
    </svg>
  );
}

function Axis({ span, now, locale }: { readonly span: readonly [number, number]; readonly now: number; readonly locale: string }) {
  const x = scaleTime([span[0], span[1]], [2, 98]);
  const zone = { offsetMin: null, locale };
  const firsts = x.ticks(60).filter((date) => date.getDate() === 1 && date.getHours() === 0);
  const marks = firsts.length > 0 ? firsts : x.ticks(3);
  return (
    <svg className={on('drawing')} width="100%" height={AXIS} aria-hidden="true">
      {marks.map((date) => (
        <g key={date.getTime()}>
          <line className={on('axis')} x1={percent(x(date))} x2={percent(x(date))} y1={AXIS - 12} y2={AXIS} />
          <text className={on('quiet')} x={percent(x(date))} dx={4} y={AXIS - 6}>
            {(firsts.length > 0 ? monthText : shortDate)(date.getTime(), zone)}
          </text>
        </g>
      ))}
      <text className={on('quiet')} x={percent(x(now))} y={12} textAnchor="middle">
        {messages.curing.today}
      </text>
      <line className={on('next')} x1={percent(x(now))} x2={percent(x(now))} y1={16} y2={AXIS} />
    </svg>
  );
}
