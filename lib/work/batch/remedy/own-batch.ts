import { mg } from '#lib/units/mass';
import type { Share } from '../share';
import type { Bench } from './bench';
import { effectsOf } from './programme';

/** The batch that oils set aside are to be: as a part of the one planned, and what it needs besides. */
interface OwnBatch {
  readonly part: number;
  readonly needs: readonly Share[];
}

/**
 * What oils set aside still need to be a batch of their own like the plan: of every line that is not in them its planned mass, as much less
 * as they take less alkali than the plan has of the same oils. So its superfat and its lye are the plan's, by the working values; its shares
 * are those of what was set aside.
 */
export const ownBatchOf = (bench: Bench, shares: readonly Share[]): OwnBatch => {
  const effects = effectsOf(bench.pot);
  const asideOf = new Map(shares.map(({ line, mass }) => [line, mass as number]));
  let [aside, planned] = [0, 0];
  for (const [at, { id, line }] of bench.stands.entries()) {
    const mass = asideOf.get(id);
    if (mass === undefined) continue;
    const { demand } = effects[at] ?? { demand: 0 };
    aside += demand * mass;
    planned += demand * line.planned.target;
  }
  if (planned <= 0) return { part: 0, needs: [] };
  const part = aside / planned;
  const needs = bench.stands.flatMap(({ id, line }): readonly Share[] => {
    const mass = mg(Math.round(line.planned.target * part));
    return asideOf.has(id) || mass <= 0 ? [] : [{ line: id, mass }];
  });
  return { part, needs };
};
