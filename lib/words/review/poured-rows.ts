import type { ReviewLine, ReviewPoured } from '#lib/work/batch/index';
import type { PouredResult, ResultFigure, ResultLimit } from '#lib/work/batch/poured/result';
import { pouredWords } from './messages-poured';

export type Figures = Extract<ReviewPoured, { readonly kind: 'figures' }>;

/** A result as its table shows it: `times` turns the record's whole number into the unit's. */
export interface PouredRow {
  readonly key: string;
  readonly name: string;
  readonly unit: string;
  readonly digits: number;
  readonly per: number;
  readonly value: number;
  readonly figure: ResultFigure;
  readonly limit: ResultLimit | null;
}

const PERCENT = { unit: pouredWords.percent, digits: 1, per: 10_000 } as const;
const MILLILITRES = { unit: pouredWords.millilitres, digits: 0, per: 1000 } as const;

/** Results in the order they matter. */
export const pouredRows = (result: PouredResult, lines: readonly ReviewLine[]): readonly PouredRow[] => {
  const { what } = pouredWords;
  const limitOf = (of: ResultLimit['what'], line: string | null = null): ResultLimit | null =>
    result.limits.find((one) => one.what === of && one.line === line) ?? null;
  const row = (
    key: string,
    name: string,
    figure: ResultFigure | null,
    limit: ResultLimit | null,
    as: typeof PERCENT | typeof MILLILITRES = PERCENT,
  ): readonly PouredRow[] => (figure === null ? [] : [{ key, name, figure, value: figure.value, limit, ...as }]);
  const nameOf = (line: string): string => lines.find((one) => one.line === line)?.material ?? line;
  const scented = (result.load?.value ?? 0) > 0;
  return [
    ...row('superfat', what.superfat, result.superfat, limitOf('superfat')).map((one) => ({
      ...one,
      value: result.superfat?.working ?? one.value,
    })),
    ...row('lye', what.lye, result.lye, limitOf('lye')),
    ...result.shares.flatMap(({ line, figure }) => row(`share ${line}`, what.share(nameOf(line)), figure, limitOf('share', line))),
    ...(scented ? row('load', what.load, result.load, null) : []),
    ...(scented ? row('fragrance', what.fragrance, result.fragrance, limitOf('fragrance')) : []),
    ...row('volume', what.volume, result.volume, null, MILLILITRES),
    ...row('full', what.full, result.full, limitOf('full')),
  ];
};
