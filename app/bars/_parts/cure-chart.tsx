import { scaleLinear } from 'd3-scale';
import { area, line } from 'd3-shape';
import { LAST_DAY } from '#lib/soap/shrink/index';
import type { CureForecast, Day } from '#lib/soap/shrink/index';
import { numberText } from '#lib/units/format';
import { shortDate } from '#lib/words/times';
import { sinceCut } from '#lib/work/bars/cure';
import type { Followed } from '#lib/work/bars/cure';
import { useDisplay } from '../../_live/use';
import { on } from '../../_ui/classes';
import { lotMessages } from '../messages-lot';
import { barMass } from './bar-mass';
import { daysSince } from './stage';

const HEIGHT = 280;
const FOOT = 232;
const TOP = 24;
const LEFT = 8;
const RIGHT = 84;
const DAY_MS = 86_400_000;
const WEEK = 7;
const LEAST_DAYS = 42;
const percent = (value: number): string => `${value}%`;
const dayOf = (day: Day): number => (day === 'later' ? LAST_DAY : day);

interface Props {
  readonly followed: Followed;
  readonly forecast: CureForecast;
  readonly now: number;
}

/** Weight of one followed bar by day: what was weighed, what is expected between its bounds, and when it is ready. */
export function CureChart({ followed, forecast, now }: Props) {
  const display = useDisplay();
  const { locale } = display;
  const mass = barMass(display);
  const { ready, loss } = forecast;
  const today = daysSince(followed.from, now);
  const last = Math.min(LAST_DAY, Math.max(LEAST_DAYS, dayOf(ready.high) + WEEK, Math.min(today, LAST_DAY) + WEEK));
  const shown = loss.slice(0, last + 1);
  const { cutWeight, points } = sinceCut(followed, forecast);
  const grams = (share: number): number => cutWeight * (1 - share);
  const weight = (share: number): number => mass.of(grams(share));
  const floor = weight(Math.max(...shown.map(({ high }) => high), ...points.map((one) => one.loss)));
  const x = scaleLinear([0, last], [LEFT, RIGHT]);
  const y = scaleLinear([floor, mass.of(cutWeight)], [FOOT, TOP]).nice(6);
  const band = area<(typeof shown)[number]>()
    .x((_, day) => x(day))
    .y0(({ high }) => y(weight(high)))
    .y1(({ low }) => y(weight(low)));
  const middle = line<(typeof shown)[number]>()
    .x((_, day) => x(day))
    .y(({ middle: share }) => y(weight(share)));
  const weighed = line<(typeof points)[number]>()
    .x(({ day }) => x(Math.min(day, last)))
    .y((one) => y(weight(one.loss)));
  const words = lotMessages.cure;
  const weeks = Array.from({ length: Math.floor(last / WEEK) + 1 }, (_, at) => at * WEEK);
  const marked = weeks.filter((_, at) => weeks.length <= 9 || at % 2 === 0);
  const end = shown.at(-1);
  const ticks = y.ticks(5);
  const places = mass.places((ticks[1] ?? 1) - (ticks[0] ?? 0));
  const within = (day: number): number => x(Math.min(day, last));
  return (
    <figure>
      <svg className={on('drawing')} width="100%" height={HEIGHT} role="img" aria-label={words.drawing(points.length)}>
        <rect
          className={on('band')}
          x={percent(within(dayOf(ready.low)))}
          width={percent(Math.max(0.3, within(dayOf(ready.high)) - within(dayOf(ready.low))))}
          y={TOP}
          height={FOOT - TOP}
        />
        <text x={percent((within(dayOf(ready.low)) + within(dayOf(ready.high))) / 2)} y={TOP - 8} textAnchor="middle" fontWeight={680}>
          {ready.middle === 'later'
            ? ''
            : `${words.ready} ${shortDate(followed.from + ready.middle * DAY_MS, { offsetMin: null, locale })}`}
        </text>
        <text className={on('quiet')} x={percent(LEFT)} dx={-6} y={TOP - 8} textAnchor="end">
          {mass.unit}
        </text>
        {ticks.map((tick) => (
          <g key={tick}>
            <line className={on('faint')} x1={percent(LEFT)} x2={percent(RIGHT)} y1={y(tick)} y2={y(tick)} />
            <text className={on('quiet')} x={percent(LEFT)} dx={-6} y={y(tick) + 4} textAnchor="end">
              {numberText(tick, locale, places)}
            </text>
          </g>
        ))}
        <svg width="100%" height={FOOT} viewBox={`0 0 100 ${FOOT}`} preserveAspectRatio="none">
          <path d={band(shown) ?? ''} fill="var(--edge)" opacity={0.35} />
          <path
            d={middle(shown) ?? ''}
            fill="none"
            stroke="var(--ink)"
            strokeWidth={1.5}
            strokeDasharray="2 3"
            vectorEffect="non-scaling-stroke"
          />
          <path d={weighed(points) ?? ''} fill="none" stroke="var(--ink)" strokeWidth={1.5} vectorEffect="non-scaling-stroke" />
        </svg>
        {points.map((one) => (
          <circle key={one.day} cx={percent(within(one.day))} cy={y(weight(one.loss))} r={4} />
        ))}
        {today > last ? null : (
          <>
            <line className={on('next')} x1={percent(x(today))} x2={percent(x(today))} y1={TOP} y2={FOOT} />
            <text className={on('quiet')} x={percent(x(today))} dx={5} y={FOOT - 8}>
              {words.today}
            </text>
          </>
        )}
        {end === undefined ? null : (
          <text className={on('wide')} x={percent(RIGHT)} dx={8} y={y(weight(end.middle)) + 4}>
            {words.final(mass.text(grams(end.high)), mass.text(grams(end.low)), mass.unit)}
          </text>
        )}
        <line className={on('axis')} x1={percent(LEFT)} x2={percent(RIGHT)} y1={FOOT} y2={FOOT} />
        {marked.map((week) => (
          <g key={week}>
            <line className={on('axis')} x1={percent(x(week))} x2={percent(x(week))} y1={FOOT} y2={FOOT + 5} />
            <text className={on('quiet')} x={percent(x(week))} y={FOOT + 20} textAnchor="middle">
              {week}
            </text>
          </g>
        ))}
        <text className={on('quiet')} x={percent((LEFT + RIGHT) / 2)} y={FOOT + 40} textAnchor="middle">
          {words.axis}
        </text>
      </svg>
    </figure>
  );
}
