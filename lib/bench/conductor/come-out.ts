import type { Milligrams } from '#lib/units/mass';
import type { LineState } from '#lib/work/batch/index';
import { NO_FACTS } from '#lib/work/batch/remedy/index';
import { standsOf } from '#lib/work/batch/remedy/stand';
import type { Scenery } from './stage';

/**
 * Whether what was poured of a line can be taken back out of its vessel by itself: nothing else is in there, or what is lies there solid.
 * Out of a mixture nothing comes back as it went in. `total`: of the line, mg, entered or not yet.
 */
export const canComeOut = ({ batch, view }: Pick<Scenery, 'batch' | 'view'>, line: LineState, total: Milligrams): boolean => {
  const { id, vessel: at } = line.plan;
  const vessel = batch.vessels[at];
  // Some of it was taken out: what was poured is not what would come out.
  const touched = line.contributions.some(({ kind, struck }) => kind === 'withdrawn' && struck === null);
  if (vessel === undefined || touched) return false;
  const withIt = { ...vessel, holds: { ...vessel.holds, [id]: total } };
  const poured = { ...batch, lines: { ...batch.lines, [id]: { ...line, actual: total } }, vessels: { ...batch.vessels, [at]: withIt } };
  const oils = view.probes.find(({ use }) => use === 'oils')?.value ?? null;
  return standsOf(poured, { ...NO_FACTS, oils, stirredIn: batch.stirredIn }).some((stand) => stand.id === id && stand.apart > 0);
};
