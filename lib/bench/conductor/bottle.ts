import type { InstrumentId } from '#lib/units/id';
import type { BatchState, LinePlan, LineState } from '#lib/work/batch/index';
import type { BottleMemory, ScaleMemory } from './memory';
import { recognisedWithin } from './stage';
import { threshold } from './zero';

/**
 * A bottle weighed by its loss is no vessel of the plan: the record names the vessel it pours into, and its mass is known only from the
 * last time it stood on a pan. So it must leave the pan before anything else is weighed there, and whatever weighs like it is asked about.
 */

/** What stands on this pan by the record is a bottle that was poured from. */
export const bottleOn = (batch: BatchState, id: InstrumentId, scale: ScaleMemory): BottleMemory | null => {
  const pan = batch.pans[id];
  if (pan === undefined || batch.lines[pan.line]?.plan.mode !== 'loss') return null;
  const { bottle } = scale;
  const open = pan.line === batch.open;
  if (bottle?.line === pan.line && bottle.zero === pan.zero && bottle.open === open) return bottle;
  return { line: pan.line, zero: pan.zero, open, off: false };
};

/** The bottle after the newest frame: gone once the pan has been free. While its own line is open it is lifted to be poured from. */
export const followBottle = (scale: ScaleMemory): ScaleMemory => {
  const { bottle, empty, track } = scale;
  const mass = track.masses.at(-1);
  if (bottle === null || bottle.open || bottle.off || mass === undefined || track.news === 'out-of-range') return scale;
  return mass - empty > threshold(scale, bottle.zero - empty) ? scale : { ...scale, bottle: { ...bottle, off: true } };
};

/** The bottle of another line still stands where the open line is to be weighed. */
export const bottleStands = (scale: ScaleMemory, line: LineState): boolean =>
  scale.bottle !== null && !scale.bottle.off && scale.bottle.line !== line.plan.id;

interface Seen {
  readonly plan: LinePlan;
  /** Newest weight it was taken at, crossed out or not, mg. */
  readonly gross: number;
}

const isSameBottle = (a: LinePlan, b: LinePlan): boolean => a.material.id === b.material.id && a.lot?.id === b.lot?.id;

/** Every bottle of the batch with the weight it had when it was last weighed. */
const bottlesSeen = (batch: BatchState): readonly Seen[] => {
  const seen: (Seen & { readonly version: number })[] = [];
  for (const { plan, contributions } of Object.values(batch.lines)) {
    if (plan.mode !== 'loss') continue;
    const last = contributions.findLast((one) => one.kind === 'pour' && one.weighed !== null);
    if (last?.weighed == null) continue;
    const before = seen.findIndex((one) => isSameBottle(one.plan, plan));
    if (before !== -1 && (seen[before]?.version ?? 0) > last.version) continue;
    if (before !== -1) seen.splice(before, 1);
    seen.push({ plan, gross: last.weighed.gross, version: last.version });
  }
  return seen;
};

/** Some bottle of the batch weighed about this when it was last on a pan. `but`: the one that is wanted. */
export const weighsLikeBottle = (batch: BatchState, scale: ScaleMemory, but: LinePlan | null = null): boolean =>
  bottlesSeen(batch).some(
    ({ plan, gross }) => (but === null || !isSameBottle(plan, but)) && Math.abs(scale.track.level - gross) <= recognisedWithin(scale),
  );

/** So much more than the line wants may have been poured by mistake; what is lighter still is another bottle. */
export const POURED_SHARE = 1.5;

/** It is lighter than when it was last weighed, by what may have been poured since: a zero taken now would swallow that. */
export const isPouredFromSince = (batch: BatchState, scale: ScaleMemory, line: LineState): boolean => {
  const last = bottlesSeen(batch).find(({ plan }) => isSameBottle(plan, line.plan));
  if (last === undefined) return false;
  const missing = last.gross - scale.track.level;
  return missing > recognisedWithin(scale) && missing <= POURED_SHARE * line.plan.target + recognisedWithin(scale);
};

/** What a person calls the thing on the pan. */
export const nameOnPan = (batch: BatchState, line: LineState): string =>
  line.plan.mode === 'loss' ? line.plan.material.name : (batch.vessels[line.plan.vessel]?.plan.name ?? '');
