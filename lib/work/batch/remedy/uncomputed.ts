import { mg } from '#lib/units/mass';
import { isLyeHeavy } from '../lye-heavy';
import { isOutside, verdictOf } from '../verdict';
import { carryOnUncomputed, takeBackCard } from './card';
import type { RemedyQuestion } from './facts';
import { standsOf } from './stand';
import type { RemedyCard } from './types';

/**
 * A plan that does not say what its lines are made of: nothing is worked out, and no figure shown. What stands by itself can still go
 * back to its target, which the plan was made for.
 */
export const uncomputedCards = ({ state, facts }: RemedyQuestion): readonly RemedyCard[] => {
  const red = Object.values(state.lines).some(({ plan, actual }) => verdictOf(plan, actual) === 'over' && isOutside(plan, actual));
  const back = standsOf(state, facts).flatMap((stand): readonly RemedyCard[] => {
    const over = stand.apart - stand.line.plan.target;
    const apart = stand.standing === 'cup' || stand.standing === 'solid' || stand.standing === 'pot';
    return apart && verdictOf(stand.line.plan, stand.line.actual) === 'over' && over > 0 ? [takeBackCard(stand, mg(over))] : [];
  });
  return [carryOnUncomputed(isLyeHeavy(state), red), ...back.slice(0, 1)];
};
