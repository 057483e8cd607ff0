import { mg } from '#lib/units/mass';
import type { PlanMould } from '../batch/pouring/types';
import type { Sizing } from './answer';
import type { Facts } from './facts';

/** One for each mould, numbered as the formula names them. */
export const plannedMoulds = ({ size }: Facts, sizing: Sizing | null): readonly PlanMould[] => {
  const all = size.moulds.flatMap(({ id, name, count, brim, pattern }, at) => {
    const grams = sizing?.moulds[at]?.grams ?? null;
    const one = {
      mould: id,
      name,
      brimMl: Math.round(brim.volume.value),
      mass: grams === null ? null : mg(Math.round(grams * 1000)),
      pattern,
    };
    return Array.from({ length: count }, () => one);
  });
  return all.map((one, at) => ({ n: at + 1, ...one }));
};
