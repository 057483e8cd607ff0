import { smallestWeight } from '#lib/measure/metrology';
import { mg, type Milligrams } from '#lib/units/mass';
import type { BatchState } from '../state';
import type { RemedyScale } from './facts';

/** An addition is weighed to half of itself at the widest. */
const WIDEST = 0.5;

/**
 * Least that may be poured onto something on a scale: it must tell that from nothing within the widest tolerance an addition gets, in whole
 * divisions. By the form of USP <41>, with what the plan knows of that scale's spread.
 */
export const smallestOn = (
  { plan }: Pick<BatchState, 'plan'>,
  { id, division }: Pick<RemedyScale, 'id' | 'division'>,
): Milligrams | null => {
  if (division === null) return null;
  const known = plan.basis?.poured?.scales.find(({ instrument }) => instrument === id)?.repeatability ?? null;
  const spread = known === null ? null : Number(known);
  const least = smallestWeight(Number.isFinite(spread) ? spread : null, division, WIDEST);
  return mg(Math.ceil(least / division) * division);
};
