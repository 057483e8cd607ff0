import type { WholeChange } from '#lib/soap/remedy/whole-change';
import { mg } from '#lib/units/mass';
import { takenOf } from './acts';
import type { Bench } from './bench';
import { limitsOf, scaleFor } from './programme';
import { roomOf, toleranceAt, upperAt } from './rooms';
import { toComeOf, type Stand } from './stand';
import type { RemedyAct, RemedyLine, RemedyNeed } from './types';

/** The batch after the acts and targets, and its grams: what rooms are measured in. */
export interface Finished {
  readonly after: Bench;
  readonly grams: readonly number[];
}

const needsOf = ({ state }: Bench, { line }: Stand, pour: number): readonly RemedyNeed[] => {
  if (pour <= 0) return [];
  const { class: kind } = line.plan.material;
  const dissolved = Object.values(state.vessels).some((vessel) => vessel.state === 'dissolved');
  if (kind === 'hydroxide') return dissolved ? ['cooled-lye', 'hydroxide-gate'] : ['hydroxide-gate'];
  return state.joined !== null && (kind === 'hard-oil' || kind === 'liquid-oil') ? ['melted'] : [];
};

/**
 * Every line that moves: its mass does, or its upper since others do. A line that is complete and untouched is left out.
 * @param finished `null` while only masses are asked for: tolerance and upper are then as before
 */
export const linesOf = (
  bench: Bench,
  { own }: WholeChange,
  acts: readonly RemedyAct[],
  finished: Finished | null,
): readonly RemedyLine[] => {
  const limits = finished === null ? [] : limitsOf(finished.after, finished.grams);
  return bench.stands.flatMap((stand, i): readonly RemedyLine[] => {
    const { id, line, apart } = stand;
    const pour = Math.max(0, Math.round((own[i] ?? 0) * 1000) - apart);
    const target = line.actual - takenOf(acts, id) + pour;
    const moves = target !== line.actual + toComeOf(stand);
    if (target <= 0 || (!moves && line.status === 'closed')) return [];
    const { plan } = line;
    const room = finished === null ? null : roomOf(limits, finished.grams, i);
    const upper = room === null ? plan.upper : upperAt(plan, target, room);
    const division = scaleFor(bench.facts, stand)?.division ?? 1;
    const tolerance = room === null || !moves || pour === 0 ? plan.tolerance : toleranceAt(plan, target, pour, room, division);
    // An over-pour waits for its answer: its own plan stands unless something of it leaves.
    if (!moves && (!stand.open || upper === plan.upper)) return [];
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
