import { layoutOf, linearOf } from './linear';
import { changeOf, excessOf, finalOf, heldBy, type Programme, type Quantity } from './programme';
import type { Column, Linear, Row, Solver } from './solver';

/** A remedy that can be weighed: every change in whole divisions, every limit kept by exactly these masses. */
export interface WholeChange {
  readonly objective: number;
  readonly final: readonly number[];
  readonly own: readonly number[];
  /** Grams that leave each mixture. */
  readonly taken: readonly number[];
  /** Which quantities change. */
  readonly changed: readonly boolean[];
}

/** Grams that a limit is kept by: the solver's own tolerance is not to cross it. Far below what any scale shows. */
const INSIDE = 1e-7;
/** Of the limit, when the masses found are checked: the last binary digits of the sums. */
const HAIR = 1e-9;

/** More divisions than any bench weighs. */
const MOST_COUNT = 1e6;

/** Own mass of a quantity that stays as it is. */
const stays = ({ weighing, reference }: Quantity): number => (weighing.as === 'whole' ? reference : weighing.from);

interface WholeLayout {
  /** Divisions counted, one column for each quantity. */
  readonly count: number;
  /** 1 where it changes. */
  readonly changes: number;
  /** Divisions taken from each mixture. */
  readonly taken: number;
  /** Smallest change, in what each scale can serve. */
  readonly ease: number;
}

const column = (lower: number, upper: number, cost = 0, integer = true): Column => ({ cost, lower, upper, integer });

const sign = ({ weighing }: Quantity): number => (weighing.as === 'less' ? -1 : 1);

/** Least and greatest count of divisions that bounds and scale allow. */
const counts = (quantity: Quantity): readonly [least: number, most: number] => {
  const { weighing, least, most } = quantity;
  const { division, from, as, smallest } = weighing;
  if (division === null) return [0, 0];
  const floor = (grams: number): number => Math.max(0, Math.min(MOST_COUNT, Math.floor(grams / division + HAIR)));
  const ceil = (grams: number): number => Math.max(0, Math.min(MOST_COUNT, Math.ceil(grams / division - HAIR)));
  if (as === 'whole') return [ceil(Math.max(least, smallest, 0)), floor(most)];
  return [ceil(Math.max(smallest, division)), floor(as === 'more' ? most - from : from - least)];
};

/** Rows that tie an own mass to its count: own = stays × (1 − changes) + division × count, and the count to zero where nothing changes. */
const tied = (quantity: Quantity, own: number, count: number, changes: number): readonly Row[] => {
  const [low, high] = counts(quantity);
  const { division, as, from } = quantity.weighing;
  const still = stays(quantity);
  const whole = as === 'whole';
  const step = sign(quantity) * (division ?? 0);
  return [
    {
      lower: whole ? still : from,
      upper: whole ? still : from,
      terms: [[own, 1], ...(step === 0 ? [] : ([[count, -step]] as const)), ...(whole && still !== 0 ? ([[changes, still]] as const) : [])],
    },
    { lower: Number.NEGATIVE_INFINITY, upper: 0, terms: [[count, 1], ...(high > 0 ? ([[changes, -high]] as const) : [])] },
    { lower: 0, upper: Number.POSITIVE_INFINITY, terms: [[count, 1], ...(low > 0 ? ([[changes, -low]] as const) : [])] },
  ];
};

const wholeLinear = (programme: Programme): { readonly linear: Linear; readonly at: WholeLayout } => {
  const { columns, rows } = linearOf(programme);
  const layout = layoutOf(programme);
  const { quantities, mixtures } = programme;
  const n = quantities.length;
  const at: WholeLayout = {
    count: layout.count,
    changes: layout.count + n,
    taken: layout.count + 2 * n,
    ease: layout.count + 2 * n + mixtures.length,
  };
  const inside = rows.map((row, i) => (i < n ? row : { ...row, upper: row.upper - INSIDE }));
  const limits = inside.slice(n);
  return {
    at,
    linear: {
      columns: [
        ...columns.map((one, i) => (i < n ? { ...one, lower: Number.NEGATIVE_INFINITY, upper: Number.POSITIVE_INFINITY } : one)),
        ...quantities.map((quantity) => column(0, counts(quantity)[1])),
        ...quantities.map((quantity) => column(0, counts(quantity)[1] >= Math.max(1, counts(quantity)[0]) ? 1 : 0)),
        ...mixtures.map((mixture) => column(0, mostCount(mixture))),
        column(0, MOST_COUNT, 0, false),
      ],
      rows: [
        ...inside.slice(0, n),
        ...limits,
        ...quantities.flatMap((quantity, i) => tied(quantity, layout.own + i, at.count + i, at.changes + i)),
        ...mixtures.map((mixture, v): Row => {
          const held = heldBy(mixture);
          const { division } = mixture;
          const each = division === null || held === 0 ? 0 : division / held;
          return { lower: 1, upper: 1, terms: [[layout.kept + v, 1], ...(each === 0 ? [] : ([[at.taken + v, each]] as const))] };
        }),
      ],
    },
  };
};

const mostCount = (mixture: Programme['mixtures'][number]): number =>
  mixture.division === null ? 0 : Math.floor((mixture.mostTaken * heldBy(mixture)) / mixture.division + HAIR);

/** The smallest change counts in smallest weights of its scale, so that what is easy on one scale compares with what is on another. */
const easeRows = ({ quantities }: Programme, at: WholeLayout): readonly Row[] =>
  quantities.flatMap((quantity, i): readonly Row[] => {
    const { division, smallest, as } = quantity.weighing;
    if (division === null || as === 'whole') return [];
    const unit = Math.max(smallest, division);
    // ease ≤ count × division ÷ unit, wherever it changes.
    return [
      {
        lower: Number.NEGATIVE_INFINITY,
        upper: MOST_COUNT,
        terms: [
          [at.ease, 1],
          [at.count + i, -(division / unit)],
          [at.changes + i, MOST_COUNT],
        ],
      },
    ];
  });

/**
 * The least change in whole divisions; among changes within one division of it the fewest lines, then what is easiest to weigh: the
 * smallest of them largest beside what its scale can serve, then the least after all. `null`: nothing that can be weighed keeps every
 * limit. @throws SolverFailed
 */
export const wholeChange = (programme: Programme, solve: Solver): WholeChange | null => {
  const { linear, at } = wholeLinear(programme);
  const first = solve(linear);
  if (first.kind === 'infeasible') return null;
  const best = readOff(programme, first.x, at);
  const again = best.changed.some(Boolean) ? solve(among(programme, linear, at, best.objective)) : first;
  const found = again.kind === 'infeasible' ? best : readOff(programme, again.x, at);
  return keeps(programme, found) ? found : keeps(programme, best) ? best : null;
};

/** The same limits, the change held within a division of the least, the fewest and easiest wanted. */
const among = (programme: Programme, linear: Linear, at: WholeLayout, objective: number): Linear => {
  const layout = layoutOf(programme);
  const n = programme.quantities.length;
  const division = Math.max(...programme.quantities.map(({ weighing }) => weighing.division ?? 0));
  const slope = FEW / (2 * Math.max(division, 1e-6));
  const cost = (i: number): number => {
    if (i >= layout.up && i < layout.count) return slope * EASY;
    if (i >= at.changes && i < at.taken) return FEW;
    return i === at.ease ? -EASY : 0;
  };
  const change: Row = {
    lower: Number.NEGATIVE_INFINITY,
    upper: objective + division + INSIDE,
    terms: Array.from({ length: 2 * n }, (_, i) => [layout.up + i, 1] as const),
  };
  return {
    columns: linear.columns.map((one, i) => ({ ...one, cost: cost(i), upper: i === at.ease ? MOST_EASE : one.upper })),
    rows: [...linear.rows, change, ...easeRows(programme, at)],
  };
};

/** One line more outweighs any ease, and ease the last division of the change. */
const FEW = 1;
const MOST_EASE = 4_000;
const EASY = 1e-4;

/** Counts to masses again, so that they are whole divisions to the last digit. */
const readOff = (programme: Programme, x: readonly number[], at: WholeLayout): WholeChange => {
  const { quantities, mixtures } = programme;
  const counted = quantities.map((_, i) => Math.round(x[at.count + i] ?? 0));
  const changed = quantities.map(({ weighing }, i) => (weighing.as === 'whole' ? (x[at.changes + i] ?? 0) > 0.5 : (counted[i] ?? 0) > 0));
  const own = quantities.map((quantity, i) => {
    const { weighing } = quantity;
    const step = sign(quantity) * (weighing.division ?? 0) * (counted[i] ?? 0);
    if (weighing.as === 'whole') return changed[i] === true ? step : quantity.reference;
    return weighing.from + step;
  });
  const taken = mixtures.map((mixture, v) => Math.round(x[at.taken + v] ?? 0) * (mixture.division ?? 0));
  const final = finalOf(programme, own, keptOf(programme, taken));
  return { objective: changeOf(programme, final), final, own, taken, changed };
};

/** Fraction of each mixture that stays when so many grams leave it. */
export const keptOf = ({ mixtures }: Programme, taken: readonly number[]): readonly number[] =>
  mixtures.map((mixture, v) => {
    const held = heldBy(mixture);
    return held === 0 ? 1 : 1 - (taken[v] ?? 0) / held;
  });

/** Looked at again without the solver: no limit is crossed by these masses. */
const keeps = (programme: Programme, { final }: WholeChange): boolean =>
  programme.limits.every((limit) => excessOf(limit, final) <= HAIR * Math.max(1, Math.abs(limit.most)));
