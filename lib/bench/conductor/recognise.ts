import type { InstrumentId, LineId, VesselId } from '#lib/units/id';
import { sumOfAll } from '#lib/units/sum';
import { CLINGS } from '#lib/work/batch/alike';
import type { BatchState, LineState, VesselState } from '#lib/work/batch/index';
import { STATED } from '#lib/work/batch/poured/stated';
import { isPouredFromSince, weighsLikeBottle } from './bottle';
import type { ScaleMemory } from './memory';
import { recognisedWithin, within } from './stage';

/** Who stands on the pan, by mass. `alike`: another vessel of the plan, or a bottle, could weigh the same. `unknown`: nobody has said what it weighs. */
export type Recognised =
  { readonly kind: 'match' | 'alike' | 'strange' | 'unknown' } | { readonly kind: 'other'; readonly vessel: VesselState };

/** What a vessel should read on this scale now, mg; several when it may stand full or as it was accepted. */
const expectedOf = (vessel: VesselState, id: InstrumentId, scale: ScaleMemory): readonly number[] => {
  const masses: number[] = [];
  if (vessel.standing !== null && vessel.standing.instrument === id) masses.push(vessel.standing.gross);
  if (vessel.empty !== null) masses.push(scale.empty + vessel.empty + vessel.contents);
  return masses;
};

/** It reads what this vessel should. */
export const looksLike = (vessel: VesselState, id: InstrumentId, scale: ScaleMemory): boolean =>
  expectedOf(vessel, id, scale).some((mass) => Math.abs(scale.track.level - mass) <= recognisedWithin(scale));

/** A jug that carries its parts over comes back with what clung to it: the record knows that it was full and where that goes. */
const isPouredOut = (batch: BatchState, vessel: VesselState, scale: ScaleMemory): boolean => {
  const { empty, contents, standing, holds, plan } = vessel;
  if (empty === null || contents <= 0 || standing === null) return false;
  const carries = (Object.keys(holds) as LineId[]).every((held) => {
    const into = batch.lines[held]?.plan.into ?? batch.lines[held]?.plan.vessel;
    return (holds[held] ?? 0) <= 0 || into !== plan.id;
  });
  const residue = scale.track.level - scale.empty - empty;
  const near = recognisedWithin(scale);
  return carries && residue >= -near && residue <= Math.max(near, CLINGS * contents);
};

/** It was emptied by somebody's word, and reads as it did before: it may stand there full after all, a cup of lye among them. */
const looksNeverEmptied = ({ state, empty, contents, delivered }: VesselState, scale: ScaleMemory): boolean => {
  if (state !== 'moved' || empty === null) return false;
  const full = contents + sumOfAll(Object.values(delivered));
  const near = recognisedWithin(scale);
  return full > near && Math.abs(scale.track.level - scale.empty - empty - full) <= near;
};

/**
 * After a weight was crossed out its vessel comes back as it was then, or with all of that poured out. With a part of it inside it weighs
 * like anything that lies between, and its old zero would make a weight of another vessel: a person says that it is the one.
 */
const isBeingWeighedAgain = (line: LineState, vesselId: VesselId, scale: ScaleMemory): boolean => {
  const last = line.contributions.at(-1);
  if (last === undefined || last.struck === null || last.weighed === null || last.vessel !== vesselId) return false;
  const { zero, gross } = last.weighed;
  return [zero, gross].some((known) => Math.abs(scale.track.level - known) <= recognisedWithin(scale));
};

/** Not by what the scale can tell, but about: another vessel of nearly the same mass would count from the zero of this one. */
export const isOnlyAbout = (line: LineState, { recount }: VesselState, scale: ScaleMemory): boolean => {
  const weighed = line.contributions.at(-1)?.weighed;
  if (recount?.line !== line.plan.id || weighed == null) return false;
  return [weighed.zero, weighed.gross].every((known) => Math.abs(scale.track.level - known) > within(scale));
};

/**
 * A bottle weighed again reads what it was crossed out at. Anything else, though it lie between that and its zero, may be the pot it pours
 * into, of which nobody knows what it weighs now: a person says what it is.
 */
const readsAsCrossedOut = (line: LineState, scale: ScaleMemory): boolean => {
  const last = line.contributions.at(-1);
  if (last === undefined || last.struck === null || last.weighed === null) return false;
  return Math.abs(scale.track.level - last.weighed.gross) <= within(scale);
};

/**
 * A vessel that nobody knows empty weighs what is in it at least, less what a person's word may be off by. And what reads as the pot did when
 * that was set aside from it is that pot, left standing.
 */
const cannotBe = ({ contents }: VesselState, batch: BatchState, id: InstrumentId, scale: ScaleMemory): boolean => {
  if (scale.track.level - scale.empty < contents * (1 - 2 * STATED.withdrawn)) return true;
  return Object.values(batch.lines).some(({ contributions }) =>
    contributions.some(
      ({ kind, weighed }) =>
        kind === 'brought' && weighed?.instrument === id && Math.abs(scale.track.level - weighed.gross) <= recognisedWithin(scale),
    ),
  );
};

export const recognise = (batch: BatchState, line: LineState, id: InstrumentId, scale: ScaleMemory): Recognised => {
  const own = batch.vessels[line.plan.vessel];
  const notIts = Object.values(batch.vessels).filter((vessel) => vessel.plan.id !== line.plan.vessel);
  const others = notIts.filter((vessel) => isAbout(batch, vessel, id));
  const exactly = own !== undefined && line.plan.mode !== 'loss' && looksLike(own, id, scale);
  // A full jug may come back with much clinging to it: that is no rival to a vessel that reads exactly what it should.
  const other =
    others.find((vessel) => looksLike(vessel, id, scale) || (!exactly && isPouredOut(batch, vessel, scale))) ??
    notIts.find((vessel) => looksNeverEmptied(vessel, scale));
  if (line.plan.mode === 'loss') {
    const known = own !== undefined && looksLike(own, id, scale) ? own : other;
    return known === undefined ? recogniseBottle(batch, line, scale) : { kind: 'other', vessel: known };
  }
  if (own === undefined) return { kind: 'strange' };
  // It stands where it was accepted and was never lifted.
  if (scale.bottle === null && scale.stand?.vessel === own.plan.id && scale.stand.off === null) return { kind: 'match' };
  if (exactly || isPouredOut(batch, own, scale) || isBeingWeighedAgain(line, own.plan.id, scale)) {
    return { kind: other === undefined && !weighsLikeBottle(batch, scale) ? 'match' : 'alike' };
  }
  if (other !== undefined) return { kind: 'other', vessel: other };
  const isUnknown = own.empty === null && own.standing === null && !cannotBe(own, batch, id, scale);
  return { kind: isUnknown ? 'unknown' : 'strange' };
};

/** Nobody knows what a bottle weighs before it has stood here; whatever carries more than the line wants may be one. */
const recogniseBottle = (batch: BatchState, line: LineState, scale: ScaleMemory): Recognised => {
  const again = batch.vessels[line.plan.vessel]?.recount?.line === line.plan.id;
  if (again) return { kind: readsAsCrossedOut(line, scale) ? 'match' : 'strange' };
  if (isPouredFromSince(batch, scale, line)) return { kind: 'strange' };
  if (weighsLikeBottle(batch, scale, line.plan)) return { kind: 'alike' };
  return { kind: scale.track.level - scale.empty > line.plan.target ? 'match' : 'strange' };
};

/** A vessel that may come to this pan: not emptied for good, and not standing on another scale. */
const isAbout = (batch: BatchState, vessel: VesselState, id: InstrumentId): boolean =>
  vessel.state !== 'moved' && !Object.entries(batch.pans).some(([pan, state]) => pan !== id && state.vessel === vessel.plan.id);
