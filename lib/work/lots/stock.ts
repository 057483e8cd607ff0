import type { Milligrams } from '#lib/units/mass';
import { mg } from '#lib/units/mass';
import type { Lot } from '../formula/index';

/** What there is of a lot, as far as anybody has said what came in. Below zero: more was weighed out than was written down as received. */
export interface Stock {
  readonly received: Milligrams | null;
  /** Sum of what was put right by hand. */
  readonly adjusted: Milligrams;
  /** Weighed into batches, less what went back. */
  readonly used: Milligrams;
  /** `null`: what came in was never said. */
  readonly left: Milligrams | null;
}

export const stockOf = ({ received, adjustments = [] }: Pick<Lot, 'received' | 'adjustments'>, used: Milligrams): Stock => {
  const adjusted = mg(adjustments.reduce((sum, { mass }) => sum + mass, 0));
  const came = received?.amount ?? null;
  return { received: came, adjusted, used, left: came === null ? null : mg(came + adjusted - used) };
};
