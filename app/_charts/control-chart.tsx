import { scaleLinear } from 'd3-scale';
import type { ControlChart as Chart, Signal } from '#lib/work/history/chart';
import { onPaper } from '../_ui/classes';
import { apartFrom, EndName, END } from './end-name';

const on = onPaper();
const HEIGHT = 200;
const FOOT = 26;
const HEAD = 22;

interface Props {
  readonly chart: Chart;
  readonly values: readonly number[];
  /** What stands below the first and the last point and beside a signalled one. */
  readonly marks: readonly string[];
  readonly write: (value: number) => string;
  readonly words: {
    readonly mean: (value: string) => string;
    readonly upper: (value: string) => string;
    readonly lower: (value: string) => string;
  };
  /** Limits of somebody else's making, as a formula's: drawn apart from those of the chart. */
  readonly allowed?: { readonly low: number | null; readonly high: number | null };
  readonly label: string;
}

const NO_LIMITS = { low: null, high: null };

/** Values in their order between their own limits; one at which a rule of the chart shows is a lozenge with its mark. */
export function ControlChart({ chart, values, marks, write, words, allowed = NO_LIMITS, label }: Props) {
  const edges = [allowed.low, allowed.high].filter((edge) => edge !== null);
  const all = [...values, chart.upper, chart.lower, ...edges];
  const y = scaleLinear([Math.min(...all), Math.max(...all)], [HEIGHT - FOOT - 10, HEAD]);
  const x = scaleLinear([0, Math.max(1, values.length - 1)], [1, END - 2]);
  const named = roomFor(
    chart.signals.map(({ at }) => at),
    x,
  );
  const signalled = new Map(chart.signals.filter(({ rule }) => rule !== 'range-beyond').map((signal) => [signal.at, signal] as const));
  return (
    <svg className={on('drawing')} width="100%" height={HEIGHT} role="img" aria-label={label}>
      <rect className={on('band')} x="0%" width={`${END}%`} y={y(chart.upper)} height={Math.max(1, y(chart.lower) - y(chart.upper))} />
      {edges.map((edge) => (
        <line key={edge} className={on('faint')} x1="0%" x2={`${END}%`} y1={y(edge)} y2={y(edge)} />
      ))}
      <line className={on('axis')} x1="0%" x2={`${END}%`} y1={y(chart.centre)} y2={y(chart.centre)} />
      <Path values={values} x={x} y={y} />
      {values.map((value, at) => (
        <Point
          key={marks[at] ?? at}
          x={`${x(at)}%`}
          y={y(value)}
          signal={signalled.get(at) ?? null}
          mark={named.has(at) ? (marks[at] ?? '') : ''}
          low={HEIGHT - FOOT - 24}
        />
      ))}
      <Names chart={chart} y={y} write={write} words={words} />
      <text className={on('quiet')} x="0%" y={HEIGHT - 6}>
        {marks[0]}
      </text>
      <text className={on('quiet')} x={`${END}%`} y={HEIGHT - 6} textAnchor="end">
        {marks.at(-1)}
      </text>
    </svg>
  );
}

type Scale = (value: number) => number;

/** Marks stand no nearer to each other than this, in per cent. */
const MARKS_APART = 9;

/** Which of the signalled points have room for their mark, from the newest back. */
const roomFor = (places: readonly number[], x: Scale): ReadonlySet<number> => {
  const named = new Set<number>();
  let last = Infinity;
  for (const at of [...new Set(places)].toSorted((a, b) => b - a)) {
    if (last - x(at) < MARKS_APART) continue;
    named.add(at);
    last = x(at);
  }
  return named;
};

function Path({ values, x, y }: { readonly values: readonly number[]; readonly x: Scale; readonly y: Scale }) {
  return (
    <svg width="100%" height={HEIGHT} viewBox={`0 0 100 ${HEIGHT}`} preserveAspectRatio="none">
      <polyline
        points={values.map((value, at) => `${x(at)},${y(value)}`).join(' ')}
        fill="none"
        stroke="var(--edge)"
        strokeWidth={1}
        vectorEffect="non-scaling-stroke"
      />
    </svg>
  );
}

interface PointProps {
  readonly x: string;
  readonly y: number;
  readonly signal: Signal | null;
  readonly mark: string;
  /** A mark below the point that would reach lower stands above it. */
  readonly low: number;
}

function Point({ x, y, signal, mark, low }: PointProps) {
  if (signal === null) return <circle cx={x} cy={y} r={2.5} data-point="within" />;
  const below = signal.side === 'below' && y < low;
  return (
    <svg x={x} y={y} overflow="visible" data-point={signal.rule}>
      <path className={on('over')} d="M0 -7L7 0L0 7L-7 0Z" />
      <text className={on('over roomy')} y={below ? 22 : -11} textAnchor="middle">
        {mark}
      </text>
    </svg>
  );
}

/** Names of the three lines at their ends, with room for each other; where there is none for names, their values. */
function Names({
  chart,
  y,
  write,
  words,
}: {
  readonly chart: Chart;
  readonly y: Scale;
  readonly write: Props['write'];
  readonly words: Props['words'];
}) {
  const places = apartFrom(y(chart.centre), [y(chart.upper), y(chart.centre), y(chart.lower)]);
  const values = [write(chart.upper), write(chart.centre), write(chart.lower)];
  return [words.upper, words.mean, words.lower].map((word, at) => (
    <EndName key={word('')} y={places[at] ?? 0} name={word(values[at] ?? '')} value={values[at] ?? ''} quiet={at !== 1} />
  ));
}
