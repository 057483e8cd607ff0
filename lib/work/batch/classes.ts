import type { LinePlan } from './plan';

/** Oils of a batch as the trade says it: butters and tallow included. */
export const isFat = ({ material }: Pick<LinePlan, 'material'>): boolean =>
  material.class === 'hard-oil' || material.class === 'liquid-oil';

export const isHydroxide = ({ material }: Pick<LinePlan, 'material'>): boolean => material.class === 'hydroxide';
