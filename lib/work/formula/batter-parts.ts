import type { PlanPart } from '../batch/pouring/types';
import type { Formula } from './formula';
import type { Reader } from './reader';

const MILLION = 1e6;

/** What leaves the pot for jugs of its own; all of them together leave something in it. */
export const batterPartsOf = ({ batterParts = [], entries }: Formula, reader: Reader): readonly PlanPart[] => {
  let taken = 0;
  const parts = batterParts.flatMap(({ id, name, percent }, at): PlanPart[] => {
    const share = reader.above(percent, `batterParts[${at}].percent`, 100 - taken);
    taken += share ?? 0;
    return share === null ? [] : [{ id, name, ppm: Math.round((share * MILLION) / 100) }];
  });
  for (const [at, { intoPart, material }] of entries.entries()) {
    if (intoPart !== undefined && !batterParts.some(({ id }) => id === intoPart))
      reader.note('unknown-part', `entries[${at}].intoPart`, { material: material ?? '' });
  }
  return parts;
};
