import type { NamedLimit } from '#lib/soap/remedy/limits';
import type { WholeChange } from '#lib/soap/remedy/whole-change';
import { mg } from '#lib/units/mass';
import { isFat, isHydroxide } from '../classes';
import { takenOf } from './acts';
import type { Bench } from './bench';
import { limitsOf, scaleFor } from './programme';
import { inDivisions, roomOf, toleranceAt, togetherInside, upperAt } from './rooms';
import { toComeOf, type Stand } from './stand';
import type { RemedyAct, RemedyLine, RemedyNeed } from './types';

/** The batch after the acts and targets, and its grams: what rooms are measured in. */
export interface Finished {
  readonly after: Bench;
  readonly grams: readonly number[];
}

const needsOf = ({ state }: Bench, { line }: Stand, pour: number): readonly RemedyNeed[] => {
  if (pour <= 0) return [];
  const dissolved = Object.values(state.vessels).some((vessel) => vessel.state === 'dissolved');
  if (isHydroxide(line.plan)) return dissolved ? ['cooled-lye', 'hydroxide-gate'] : ['hydroxide-gate'];
  return state.joined !== null && isFat(line.plan) ? ['melted'] : [];
};

/** Of one line: milligrams still to pour, and where it ends. */
interface Goal {
  readonly pour: number;
  readonly target: number;
  readonly moves: boolean;
  readonly division: number;
}

const NOTHING: Goal = { pour: 0, target: 0, moves: false, division: 1 };

/** Half-widths of all that is still to be poured: of what does not move as planned, and all narrowed to what they may be off by together. */
const halvesOf = ({ stands }: Bench, goals: readonly Goal[], limits: readonly NamedLimit[], grams: readonly number[]): readonly number[] =>
  togetherInside(
    limits,
    grams,
    goals.map(({ pour, target, moves, division }, i) => {
      const plan = stands[i]?.line.plan;
      if (plan === undefined || pour === 0) return { wanted: 0, least: 0 };
      const least = Math.min(division, plan.tolerance);
      const wanted = moves ? toleranceAt(plan, target, pour, roomOf(limits, grams, i), division) : plan.tolerance;
      return { wanted: Math.max(wanted, least), least };
    }),
  );

/**
 * Every line that moves: its mass does, or its tolerance or upper since others do. A line that is complete and untouched is left out.
 * @param finished `null` while only masses are asked for: tolerance and upper are then as before
 */
export const linesOf = (
  bench: Bench,
  { own }: Pick<WholeChange, 'own'>,
  acts: readonly RemedyAct[],
  finished: Finished | null,
): readonly RemedyLine[] => {
  const limits = finished === null ? [] : limitsOf(finished.after, finished.grams);
  const goals = bench.stands.map((stand, i): Goal => {
    const pour = Math.max(0, Math.round((own[i] ?? 0) * 1000) - stand.apart);
    const target = stand.line.actual - takenOf(acts, stand.id) + pour;
    return { pour, target, moves: target !== stand.line.actual + toComeOf(stand), division: scaleFor(bench.facts, stand)?.division ?? 1 };
  });
  const halves = finished === null ? [] : halvesOf(bench, goals, limits, finished.grams);
  return bench.stands.flatMap((stand, i): readonly RemedyLine[] => {
    const { id, line } = stand;
    const { pour, target, moves, division } = goals[i] ?? NOTHING;
    if (target <= 0 || (!moves && line.status === 'closed')) return [];
    const { plan } = line;
    const room = finished === null ? null : roomOf(limits, finished.grams, i);
    const upper = room === null ? plan.upper : upperAt(plan, target, room);
    const tolerance = room === null || pour === 0 ? plan.tolerance : inDivisions(halves[i] ?? 0, plan, division);
    // An over-pour waits for its answer: its own plan stands unless something of it leaves.
    if (!moves && (!stand.open || (upper === plan.upper && tolerance === plan.tolerance))) return [];
    return [
      {
        line: id,
        target: mg(target),
        tolerance,
        upper: upper === null ? null : mg(Math.max(upper, target)),
        pour: mg(pour),
        change: target - plan.target,
        needs: needsOf(bench, stand, pour),
      },
    ];
  });
};

/** Nothing poured otherwise than planned: tolerance and upper alone move, so that what is still to come keeps what the formula asks. */
export const linesAsTheyStand = (bench: Bench, grams: readonly number[]): readonly RemedyLine[] =>
  linesOf(bench, { own: bench.stands.map((stand) => (stand.apart + toComeOf(stand)) / 1000) }, [], { after: bench, grams });
