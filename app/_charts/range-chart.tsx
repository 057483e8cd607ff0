import { scaleLinear } from 'd3-scale';
import type { ControlChart } from '#lib/work/history/chart';
import { onPaper } from '../_ui/classes';
import { apartFrom, EndName, END } from './end-name';

const on = onPaper();
const HEIGHT = 132;
const FOOT = 24;

interface Props {
  readonly chart: ControlChart;
  /** Of the later of the two batches of each range. */
  readonly marks: readonly string[];
  readonly write: (value: number) => string;
  readonly words: { readonly mean: (value: string) => string; readonly limit: (value: string) => string };
  readonly label: string;
}

/** Moving ranges as stems from zero, with their mean and their one limit. */
export function RangeChart({ chart: { ranges, rangeCentre, rangeUpper }, marks, write, words, label }: Props) {
  const y = scaleLinear([0, Math.max(rangeUpper, ...ranges)], [HEIGHT - FOOT, 12]);
  const [limit = 0] = apartFrom(y(rangeCentre), [y(rangeUpper)]);
  const x = scaleLinear([0, Math.max(1, ranges.length - 1)], [1, END - 2]);
  return (
    <svg className={on('drawing')} width="100%" height={HEIGHT} role="img" aria-label={label}>
      <line className={on('axis')} x1="0%" x2={`${END}%`} y1={y(0)} y2={y(0)} />
      <line className={on('faint')} x1="0%" x2={`${END}%`} y1={y(rangeCentre)} y2={y(rangeCentre)} />
      <line className={on('faint')} x1="0%" x2={`${END}%`} y1={y(rangeUpper)} y2={y(rangeUpper)} />
      {ranges.map((range, at) => (
        <g
          key={marks[at] ?? at}
          className={range > rangeUpper ? on('over') : undefined}
          data-range={range > rangeUpper ? 'beyond' : 'within'}
        >
          <rect x={`${x(at)}%`} y={y(range)} width={2} height={y(0) - y(range)} />
          {range > rangeUpper ? (
            <text className={on('over')} x={`${x(at)}%`} y={y(range) - 4} textAnchor="middle">
              {marks[at]}
            </text>
          ) : null}
        </g>
      ))}
      <EndName y={y(rangeCentre)} name={words.mean(write(rangeCentre))} value={write(rangeCentre)} quiet={false} />
      <EndName y={limit} name={words.limit(write(rangeUpper))} value={write(rangeUpper)} quiet />
    </svg>
  );
}
