import type { Milligrams } from '#lib/units/mass';
import { mg } from '#lib/units/mass';
import type { LineId, VesselId } from '#lib/units/id';
import type { Standing } from '../entries';
import { own } from '../own';
import type { BatchState, Contribution } from '../state';

/** Where a vessel's contents went, hop by hop. */
const downstream = (state: BatchState, from: VesselId): readonly VesselId[] => {
  const path: VesselId[] = [from];
  for (let next = own(state.vessels, from)?.deliveredTo ?? null; next !== null && !path.includes(next);) {
    path.push(next);
    next = own(state.vessels, next)?.deliveredTo ?? null;
  }
  return path;
};

/**
 * Where `mass` of a line that went into `vessel` stands by the record: there, then in what it was emptied into, then anywhere.
 * What is found nowhere (it was taken out or portioned since) is owed by the last of them, so that sums stay sums.
 */
export const whereabouts = (state: BatchState, line: LineId, vessel: VesselId, mass: Milligrams): readonly Standing[] => {
  const path = downstream(state, vessel);
  const elsewhere = Object.values(state.vessels)
    .map(({ plan }) => plan.id)
    .filter((id) => !path.includes(id));
  const out: Standing[] = [];
  let left = mass as number;
  for (const id of [...path, ...elsewhere]) {
    const taken = Math.min(left, own(own(state.vessels, id)?.holds ?? {}, line) ?? 0);
    if (taken > 0) out.push({ vessel: id, line, mass: mg(taken) });
    left -= Math.max(0, taken);
  }
  return left > 0 ? [...out, { vessel: path.at(-1) ?? vessel, line, mass: mg(left) }] : out;
};

/** What crossing out a contribution takes out of the vessels; what had left them comes back with a negative mass. */
export const outOf = (state: BatchState, line: LineId, one: Contribution): readonly Standing[] => {
  if (one.net > 0) return whereabouts(state, line, one.vessel, one.net);
  const back = one.kind === 'weigh-back' ? (downstream(state, one.vessel).at(-1) ?? one.vessel) : one.vessel;
  return one.net === 0 ? [] : [{ vessel: back, line, mass: one.net }];
};
