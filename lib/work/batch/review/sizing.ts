import type { Plan } from '../plan';
import type { BatchState } from '../state';
import type { ReviewSizing } from './types';

const workedOf = ({ basis }: Plan, what: string): number | null => {
  const text = basis?.worked.find((one) => one.what === what)?.value.trim() ?? '';
  const value = text === '' ? Number.NaN : Number(text);
  return Number.isFinite(value) && value > 0 ? value : null;
};

const text = (value: number): string => value.toFixed(3);

/**
 * The volume the plan computed by its parts, in proportion to what was really weighed, as if nobody had corrected it: a calibration is
 * learnt from what its own factor did not touch. `null` for a plan that computed none.
 */
export const sizingOf = ({ plan, lines }: BatchState): ReviewSizing | null => {
  const [volume, grams] = [workedOf(plan, 'volume of batter'), workedOf(plan, 'batter')];
  const sizing = plan.basis?.poured?.sizing ?? null;
  const weighed = Object.values(lines).reduce((sum, { actual }) => sum + actual, 0) / 1000;
  const factor = sizing?.calibration == null ? 1 : Number(sizing.calibration.factor);
  if (volume === null || grams === null || sizing === null || !(factor > 0) || !(weighed > 0)) return null;
  return { volume: text(((volume / factor) * weighed) / grams), grams: text(weighed), residue: sizing.residue, pourLoss: sizing.pourLoss };
};
