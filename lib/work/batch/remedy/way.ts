import { leastChange } from '#lib/soap/remedy/least-change';
import { changeOf } from '#lib/soap/remedy/programme';
import type { Solver } from '#lib/soap/remedy/solver';
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

/** A volume is not quite straight in the masses: looked at again where the last answer was. */
const LOOKS = 3;
/** Grams by which each limit is drawn in when milligrams of a mixture, divided among its lines, crossed it. */
const DRAWN_IN = [0, 0.004, 0.05];

/** The way out that is asked for, in whole divisions; `null` when there is none that can be weighed. @throws SolverFailed */
export const wayOut = (bench: Bench, ways: Ways, as: WithdrawnAs, solve: Solver): Way | null => {
  let around: readonly number[] | undefined;
  for (let look = 0; look < LOOKS; look += 1) {
    const wide = programmeOf(bench, ways, around);
    // Where it can be, with a division to spare of all that is still to be poured; else to the limit itself.
    const spared = sparing(bench, wide);
    const sparingly = leastChange(spared, solve);
    const least = sparingly ?? leastChange(wide, solve);
    if (least === null) return null;
    const programme = sparingly === null ? wide : spared;
    for (const by of DRAWN_IN) {
      const within = drawnIn(programme, by);
      const start = by === 0 ? least : leastChange(within, solve);
      const whole = start === null ? null : wholeChange(within, start, solve);
      if (whole === null) break;
      const way = toTheMilligram(bench, programme, whole, as);
      if (way !== null) return way;
    }
    around = least.final;
  }
  return null;
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
