import type { Programme } from './programme';
import type { Column, Linear, Row } from './solver';

/** Where each part of a programme stands among the columns. */
export interface Layout {
  readonly own: number;
  readonly kept: number;
  readonly up: number;
  readonly down: number;
  readonly count: number;
}

export const layoutOf = ({ quantities, mixtures }: Programme): Layout => {
  const [n, m] = [quantities.length, mixtures.length];
  return { own: 0, kept: n, up: n + m, down: 2 * n + m, count: 3 * n + m };
};

const column = (lower: number, upper: number, cost = 0, integer = false): Column => ({ cost, lower, upper, integer });

/** Coefficients of Σ weight × final in own masses and kept fractions, zeros left out. */
const finalTerms = ({ mixtures }: Programme, { own, kept }: Layout, weights: readonly number[]): [number, number][] => {
  const terms: [number, number][] = [];
  for (const [i, weight] of weights.entries()) if (weight !== 0) terms.push([own + i, weight]);
  for (const [v, { holds }] of mixtures.entries()) {
    const together = holds.reduce((sum, mass, i) => sum + mass * (weights[i] ?? 0), 0);
    if (together !== 0) terms.push([kept + v, together]);
  }
  return terms;
};

/** Final less the deviation is the reference: one row for each quantity. */
const deviationRows = (programme: Programme, layout: Layout): readonly Row[] =>
  programme.quantities.map(({ reference }, i) => ({
    lower: reference,
    upper: reference,
    terms: [
      [layout.own + i, 1],
      ...programme.mixtures.flatMap(({ holds }, v): [number, number][] =>
        (holds[i] ?? 0) === 0 ? [] : [[layout.kept + v, holds[i] ?? 0]],
      ),
      [layout.up + i, -1],
      [layout.down + i, 1],
    ],
  }));

const limitRows = (programme: Programme, layout: Layout): readonly Row[] =>
  programme.limits.map(({ coefficients, most }) => ({
    lower: Number.NEGATIVE_INFINITY,
    upper: most,
    terms: finalTerms(programme, layout, coefficients),
  }));

/** The continuous programme. Rows: one for each quantity's deviation, then the limits in their order. */
export const linearOf = (programme: Programme): Linear => {
  const layout = layoutOf(programme);
  const { quantities, mixtures } = programme;
  return {
    columns: [
      ...quantities.map(({ least, most }) => column(least, most)),
      ...mixtures.map(({ mostTaken }) => column(1 - mostTaken, 1)),
      ...quantities.map(({ costs }) => column(0, Number.POSITIVE_INFINITY, costs?.up ?? 1)),
      ...quantities.map(({ costs }) => column(0, Number.POSITIVE_INFINITY, costs?.down ?? 1)),
    ],
    rows: [...deviationRows(programme, layout), ...limitRows(programme, layout)],
  };
};
