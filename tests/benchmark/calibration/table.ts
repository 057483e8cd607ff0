import { quantile } from './interval';
import { percent, type Mark } from './marks';
import { GUIDED, type Tally } from './tally';

export type Row = readonly [string, Tally];

/** Columns as wide as their widest cell; the first stands left, the others right. */
const alignedAs = (rows: readonly (readonly string[])[]): string => {
  const widths = (rows[0] ?? []).map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  const pad = (cell: string, column: number): string =>
    column === 0 ? cell.padEnd(widths[column] ?? 0) : cell.padStart(widths[column] ?? 0);
  return rows.map((row) => row.map(pad).join('  ').trimEnd()).join('\n');
};

const share = (part: number, of: number): string => percent(of === 0 ? Number.NaN : part / of);

const HEAD = [
  '',
  'lines',
  'accepted',
  'wrong',
  'left',
  'off',
  'asked',
  'over',
  'never',
  'needless ?',
  'a little more',
  'median s',
  'p95 s',
];

export const tableOf = (rows: readonly Row[]): string =>
  alignedAs([
    HEAD,
    ...rows.map(([name, tally]) => [
      name,
      String(tally.lines),
      String(tally.accepted),
      String(tally.wrong),
      String(tally.undetected),
      String(tally.outOfBand),
      share(tally.asked, tally.lines),
      share(tally.over, tally.lines),
      String(tally.never),
      String(tally.needless),
      share(tally.littleMore, tally.lines),
      quantile(tally.seconds, 0.5).toFixed(1),
      quantile(tally.seconds, 0.95).toFixed(1),
    ]),
  ]);

export const marksTable = (marks: readonly Mark[]): string =>
  alignedAs([
    ['', 'here', '95 % interval', 'to reach', ''],
    ...marks.map(({ name, ours, interval, theirs, verdict }) => [name, ours, interval, theirs, verdict]),
  ]);

export const endsOf = ({ ends }: Tally): string =>
  GUIDED.map((who) => {
    const { count, error, short, over } = ends[who];
    const mean = (error / Math.max(1, count)).toFixed(2);
    return `${who.padEnd(7)} mean |end error| ${mean} tolerances, short ${share(short, count)}, over ${share(over, count)} (${count} pours)`;
  }).join('\n');

export const reasonsOf = ({ reasons }: Tally): string =>
  [...reasons]
    .toSorted((a, b) => b[1] - a[1])
    .map(([why, times]) => `${why} ${times}`)
    .join(', ');
