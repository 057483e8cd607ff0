import { leastChange } from '#lib/soap/remedy/least-change';
import { changeOf } from '#lib/soap/remedy/programme';
import { SolverFailed, type Solver } from '#lib/soap/remedy/solver';
import { wholeChange } from '#lib/soap/remedy/whole';
import type { WholeChange } from '#lib/soap/remedy/whole-change';
import { mg } from '#lib/units/mass';
import { actsOf, type WithdrawnAs } from './acts';
import { afterRemedy } from './after';
import { benchOf, type Bench } from './bench';
import { leftBy } from './leaves';
import { linesOf } from './lines';
import { isOfBench } from './rooms';
import { asItStands, programmeOf, type NamedProgramme, type Ways } from './programme';
import type { RemedyAct, RemedyLine } from './types';

/** A way out worked out to the milligram, with every limit kept. */
export interface Way {
  readonly acts: readonly RemedyAct[];
  readonly lines: readonly RemedyLine[];
  /** Σ |final − reference|, mg. */
  readonly change: number;
}

/** A way out; `null`: there is none that can be weighed; `not-solved`: whether there is one could not be worked out in time. */
export type Sought = Way | 'not-solved' | null;

export const isFound = (sought: Sought): sought is Way => sought !== null && sought !== 'not-solved';

/** A volume is not quite straight in the masses: looked at again where the last answer was. */
const LOOKS = 3;
/** Grams by which each limit is drawn in when milligrams of a mixture, divided among its lines, crossed it. */
const DRAWN_IN = [0, 0.004, 0.05];

/** A search in whole divisions that ran out of time says so: it is not that there is nothing. */
const inTime = (search: () => WholeChange | null): WholeChange | 'not-solved' | null => {
  try {
    return search();
  } catch (error) {
    if (error instanceof SolverFailed) return 'not-solved';
    throw error;
  }
};

/** The way out that is asked for, in whole divisions. @throws SolverFailed where not even the masses without divisions could be worked out */
export const wayOut = (bench: Bench, ways: Ways, as: WithdrawnAs, solve: Solver): Sought => {
  let around: readonly number[] | undefined;
  let late = false;
  for (let look = 0; look < LOOKS; look += 1) {
    const wide = programmeOf(bench, ways, around);
    // Where it can be, with a division to spare of all that is still to be poured; else to the limit itself.
    const spared = sparing(bench, wide);
    const sparingly = leastChange(spared, solve);
    const least = sparingly ?? leastChange(wide, solve);
    if (least === null) break;
    const programme = sparingly === null ? wide : spared;
    for (const by of DRAWN_IN) {
      const within = drawnIn(programme, by);
      const start = by === 0 ? least : leastChange(within, solve);
      const whole = start === null ? null : inTime(() => wholeChange(within, start, solve));
      if (whole === 'not-solved') late = true;
      if (whole === null || whole === 'not-solved') break;
      const way = toTheMilligram(bench, programme, whole, as);
      if (way !== null) return way;
    }
    around = least.final;
  }
  return late ? 'not-solved' : null;
};

/** Each limit of the formula drawn in by what one division of every line still to come does to it: nobody pours finer. */
const sparing = ({ stands }: Bench, programme: NamedProgramme): NamedProgramme => {
  const steps = stands.map(({ open }, i) => (open ? (programme.quantities[i]?.weighing.division ?? 0) : 0));
  const spare = ({ coefficients }: NamedProgramme['limits'][number]): number =>
    steps.reduce((sum, step, i) => sum + step * Math.abs(coefficients[i] ?? 0), 0);
  return { ...programme, limits: programme.limits.map((one) => (isOfBench(one) ? one : { ...one, most: one.most - spare(one) })) };
};

const drawnIn = (programme: NamedProgramme, by: number): NamedProgramme => ({
  ...programme,
  limits: programme.limits.map((limit) => ({
    ...limit,
    most: limit.most - by * Math.max(...limit.coefficients.map(Math.abs)),
  })),
});

/** Acts and lines of a change, looked at once more by what they make of the batch itself: every limit is kept, or it is none. */
const toTheMilligram = (bench: Bench, programme: NamedProgramme, whole: WholeChange, as: WithdrawnAs): Way | null => {
  const acts = actsOf(bench, whole, as);
  const bare = linesOf(bench, whole, acts, null);
  const after = benchOf(afterRemedy(bench.state, { acts, lines: bare }), bench.pot, bench.facts);
  const grams = asItStands(after);
  if (leftBy(after, grams).length > 0) return null;
  const lines = linesOf(bench, whole, acts, { after, grams });
  return { acts, lines, change: mg(Math.round(changeOf(programme, grams) * 1000)) };
};
