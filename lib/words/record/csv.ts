import type { BatchReview, BatchSummary, ReviewContribution } from '#lib/work/batch/index';
import { csvRow } from '#lib/work/csv';

/**
 * Tables for other programs (RFC 4180): a head, figures with a point and no grouping, grams, degrees Celsius, times as ISO 8601 with their
 * offset. The words are the record's own codes, so that nothing is lost in a translation.
 */

/** As typed into a table: "-12.5". */
export const grams = (milligrams: number): string => {
  const whole = Math.trunc(Math.abs(milligrams) / 1000);
  const rest = String(Math.abs(milligrams) % 1000)
    .padStart(3, '0')
    .replace(/0+$/, '');
  return `${milligrams < 0 ? '-' : ''}${whole}${rest === '' ? '' : `.${rest}`}`;
};

const two = (value: number): string => String(value).padStart(2, '0');

/** "2026-04-14T13:06:07+02:00": the time as the bench's clock had it. */
export const stamp = (wall: number, offsetMin: number): string => {
  const local = new Date(wall + offsetMin * 60_000).toISOString().slice(0, 19);
  const away = Math.abs(offsetMin);
  return `${local}${offsetMin < 0 ? '-' : '+'}${two(Math.floor(away / 60))}:${two(away % 60)}`;
};

const WEIGHT_HEAD = [
  'batch',
  'formula',
  'formula version',
  'line',
  'material',
  'lot',
  'planned g',
  'target g',
  'tolerance g',
  'what',
  'net g',
  'as stated',
  'unit',
  'instrument',
  'scale checked',
  'how',
  'by',
  'at',
  'crossed out',
  'why',
  'put right g',
  'put right lot',
];

/** Head of the table of weights. */
export const weightsHead = csvRow(WEIGHT_HEAD);

/** Every weight of a batch, those crossed out among them, in the order of its lines. A line nobody weighed has a row without a weight. */
export const weightRows = ({ summary, formula, lines }: Pick<BatchReview, 'summary' | 'formula' | 'lines'>): string =>
  lines
    .flatMap((line) => {
      const about = [
        summary.mark,
        formula.name,
        String(formula.version),
        line.line,
        line.material,
        '',
        grams(line.planned.target),
        grams(line.target),
        grams(line.tolerance),
      ];
      if (line.contributions.length === 0) return [csvRow([...about.with(5, line.lot ?? ''), ...Array.from({ length: 13 }, () => '')])];
      return line.contributions.map((one) => csvRow([...about.with(5, one.lot ?? line.lot ?? ''), ...weightCells(one)]));
    })
    .join('');

const weightCells = (one: ReviewContribution): readonly string[] => [
  one.kind,
  grams(one.net),
  one.stated?.text.trim() ?? '',
  one.stated?.unit ?? '',
  one.instrument ?? '',
  one.instrument === null ? '' : one.checked ? 'yes' : 'no',
  one.how,
  one.by,
  stamp(one.wall, one.offsetMin),
  one.struck === null ? '' : 'yes',
  one.struck?.reason ?? '',
  one.amended === null ? '' : grams(one.amended),
  one.rightLot ?? '',
];

const BATCH_HEAD = [
  'batch',
  'formula',
  'realm',
  'status',
  'begun UTC',
  'ended UTC',
  'lines weighed',
  'lines',
  'planned g',
  'actual g',
  'over-pours',
  'overrides',
  'by hand',
  'deviations written down',
];

export const batchesHead = csvRow(BATCH_HEAD);

/** One batch of the list. */
export const batchRow = (row: BatchSummary): string =>
  csvRow([
    row.mark,
    row.name,
    row.realm,
    row.status,
    stamp(row.startedWall, 0),
    row.endedWall === null ? '' : stamp(row.endedWall, 0),
    String(row.lines.closed),
    String(row.lines.of),
    grams(row.planned),
    grams(row.actual),
    String(row.overPours),
    String(row.overrides),
    String(row.byHand),
    String(row.stated ?? 0),
  ]);
