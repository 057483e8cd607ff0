import { layoutOf, linearOf } from './linear';
import { leastChange, type LeastChange } from './least-change';
import { nearChanges } from './near';
import { roundedChange } from './rounded';
import { finalOf, heldBy, keeps, keptOf, type Programme, type Quantity } from './programme';
import type { Column, Linear, Row, Solver } from './solver';
import { changeAt, pickOf, type WholeChange } from './whole-change';

/** Grams that a limit is kept by: the solver's own tolerance is not to cross it. Far below what any scale shows. */
const INSIDE = 1e-7;
/** Of a count: the last binary digits of a mass over its division. */
const HAIR = 1e-9;

/** More divisions than any bench weighs. */
const MOST_COUNT = 1e6;

interface WholeLayout {
  /** Divisions counted, one column for each quantity. */
  readonly count: number;
  /** 1 where it changes. */
  readonly changes: number;
  /** Divisions taken from each mixture. */
  readonly taken: number;
}

const column = (lower: number, upper: number, cost = 0, integer = true): Column => ({ cost, lower, upper, integer });

interface Counts {
  /** Divisions of the own mass from where it counts. */
  readonly low: number;
  readonly high: number;
}

const clamp = (count: number): number => Math.max(-MOST_COUNT, Math.min(MOST_COUNT, count));

/** What bounds and scale allow of a change; `null`: none at all. */
const counts = ({ weighing, least, most }: Quantity): Counts | null => {
  const { division, from, smallest, stays } = weighing;
  if (division === null) return null;
  // What is poured onto something is weighed by itself.
  const poured = least - from >= 0 ? Math.max(least, (from === stays ? from : least) + smallest) : least;
  const low = clamp(Math.ceil((poured - from) / division - HAIR));
  const high = clamp(Math.floor((most - from) / division + HAIR));
  return low > high || (low === 0 && high === 0) ? null : { low, high };
};

/** Rows that tie an own mass to its count: own = stays + changes × (from − stays) + division × count, and the count to 0 where nothing changes. */
const tied = (quantity: Quantity, own: number, count: number, changes: number): readonly Row[] => {
  const { low, high } = counts(quantity) ?? { low: 0, high: 0 };
  const { division, from, stays } = quantity.weighing;
  const shift = stays - from;
  return [
    {
      lower: stays,
      upper: stays,
      terms: [
        [own, 1],
        ...(division === null ? [] : ([[count, -division]] as const)),
        ...(shift === 0 ? [] : ([[changes, shift]] as const)),
      ],
    },
    { lower: Number.NEGATIVE_INFINITY, upper: 0, terms: [[count, 1], ...(high === 0 ? [] : ([[changes, -high]] as const))] },
    { lower: 0, upper: Number.POSITIVE_INFINITY, terms: [[count, 1], ...(low === 0 ? [] : ([[changes, -low]] as const))] },
  ];
};

const wholeLinear = (programme: Programme): { readonly linear: Linear; readonly at: WholeLayout } => {
  const { columns, rows } = linearOf(programme);
  const layout = layoutOf(programme);
  const { quantities, mixtures } = programme;
  const n = quantities.length;
  const ranges = quantities.map(counts);
  const at: WholeLayout = {
    count: layout.count,
    changes: layout.count + n,
    taken: layout.count + 2 * n,
  };
  const inside = rows.map((row, i) => (i < n ? row : { ...row, upper: row.upper - INSIDE }));
  const limits = inside.slice(n);
  return {
    at,
    linear: {
      columns: [
        ...columns.map((one, i) => (i < n ? { ...one, lower: Number.NEGATIVE_INFINITY, upper: Number.POSITIVE_INFINITY } : one)),
        ...ranges.map((range) => column(Math.min(0, range?.low ?? 0), Math.max(0, range?.high ?? 0))),
        ...ranges.map((range) => column(0, range === null ? 0 : 1)),
        ...mixtures.map((mixture) => column(0, mostCount(mixture))),
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

/**
 * The least change in whole divisions, by the solver's own search: exact, and tens of milliseconds. `null`: nothing that can be weighed
 * keeps every limit. @throws SolverFailed
 */
export const searchedChange = (programme: Programme, least: LeastChange, solve: Solver): WholeChange | null => {
  const { linear, at } = wholeLinear(programme);
  const solved = solve(linear);
  if (solved.kind === 'infeasible') return null;
  const found = readOff(programme, least, solved.x, at);
  return keeps(programme, found.final) ? found : null;
};

const heldStill = (programme: Programme, at: number): Programme => ({
  ...programme,
  quantities: programme.quantities.map((one, i) => (i === at ? { ...one, least: one.weighing.stays, most: one.weighing.stays } : one)),
});

/** Of more lines than this none is left out for the ease of it, and of fewer at most two. */
const MOST_LINES = 4;
const MOST_DROPPED = 2;
const CHANGED = 1e-7;

const linesOf = ({ quantities }: Programme, own: readonly number[]): readonly number[] =>
  quantities.flatMap(({ weighing }, at) => (Math.abs((own[at] ?? 0) - weighing.stays) > CHANGED ? [at] : []));

/**
 * Without one of the lines of a change, and again without one of what is left, where that costs no more than a division over `most`: fewer
 * to weigh.
 * @param most the best change so far, grams; `dropped` how many may still be left out
 */
const withFewer = (
  programme: Programme,
  lines: readonly number[],
  most: number,
  dropped: number,
  solve: Solver,
): readonly WholeChange[] => {
  if (dropped === 0 || lines.length < 2 || lines.length > MOST_LINES) return [];
  const division = Math.max(...programme.quantities.map(({ weighing }) => weighing.division ?? 0));
  return lines.flatMap((at) => {
    const without = heldStill(programme, at);
    const lesser = leastChange(without, solve);
    if (lesser === null || lesser.objective > most + division) return [];
    return [...nearChanges(without, lesser), ...withFewer(without, linesOf(without, lesser.own), most, dropped - 1, solve)];
  });
};

/**
 * The least change in whole divisions: next to the continuous one, where there is any, else wherever the solver finds it in its time.
 * `null`: nothing that can be weighed keeps every limit. @throws SolverFailed where the time ran out: that there is nothing is not said by it
 */
export const wholeChange = (programme: Programme, least: LeastChange, solve: Solver): WholeChange | null => {
  const near = nearChanges(programme, least);
  const best = pickOf(programme, near);
  if (best !== null) {
    const fewer = withFewer(programme, linesOf(programme, best.own), best.objective, MOST_DROPPED, solve).map((one) => ({
      ...one,
      gap: one.objective - least.objective,
    }));
    return pickOf(programme, [...near, ...fewer]);
  }
  return roundedChange(programme, least, solve) ?? searchedChange(programme, least, solve);
};

/** Counts to masses again, so that they are whole divisions to the last digit. */
const readOff = (programme: Programme, least: LeastChange, x: readonly number[], at: WholeLayout): WholeChange => {
  const { quantities, mixtures } = programme;
  const changed = quantities.map((_, i) => (x[at.changes + i] ?? 0) > 0.5);
  const own = quantities.map(({ weighing }, i) =>
    changed[i] === true ? weighing.from + (weighing.division ?? 0) * Math.round(x[at.count + i] ?? 0) : weighing.stays,
  );
  const taken = mixtures.map((mixture, v) => Math.round(x[at.taken + v] ?? 0) * (mixture.division ?? 0));
  const final = finalOf(programme, own, keptOf(programme, taken));
  return changeAt(programme, least, own, taken, final);
};
