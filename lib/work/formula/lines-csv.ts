import { csvRow } from '../csv';
import type { Planned } from './answer';
import { decimal } from './figure';

const HEAD = [
  'line',
  'material',
  'lot',
  'phase',
  'vessel',
  'target g',
  'tolerance g',
  'at most g',
  'share of its part %',
  'of the batter %',
  'scale',
];

const g = (milligrams: number | null): string => (milligrams === null ? '' : decimal(milligrams / 1000));

const percent = (fraction: number | undefined): string => (fraction === undefined ? '' : (100 * fraction).toFixed(3));

/** The plan's lines as CSV (RFC 4180), grams with a point, in the order of work, with their sum. */
export const linesCsv = ({ plan, lines, total }: Planned): string => {
  const figures = new Map(lines.map((one) => [one.line, one]));
  const rows = plan.lines.map((line) => {
    const one = figures.get(line.id);
    const vessel = plan.vessels.find(({ id }) => id === line.vessel)?.name ?? line.vessel;
    return [
      line.id,
      line.material.name,
      line.lot?.mark ?? '',
      line.phase,
      vessel,
      g(line.target),
      g(line.tolerance),
      g(line.upper),
      percent(one?.shareOfPart),
      percent(one?.shareOfBatter),
      line.scale,
    ];
  });
  const sum = ['', 'all lines', '', '', '', g(total), '', '', '', '', ''];
  return [HEAD, ...rows, sum].map(csvRow).join('');
};
