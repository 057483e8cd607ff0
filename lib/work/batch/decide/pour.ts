import type { InstrumentId, LineId, VesselId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import { mg } from '#lib/units/mass';
import type { Draft, Share } from '../entries';
import { openLine } from '../order';
import { own } from '../own';
import type { BatchState, LineState } from '../state';
import { isRed } from '../red';
import { verdictOf } from '../verdict';
import { isHydroxide } from '../classes';
import { draft } from './decision';

/** A vessel standing on a pan at a settled gross. */
export interface OnPan {
  readonly vessel: VesselId;
  readonly instrument: InstrumentId;
  readonly gross: Milligrams;
  readonly episode: number;
}

const zeroFor = (line: LineId, on: OnPan): Draft => draft('vessel-set', { ...on, line, empty: null });

/** The next line opens at once when it goes into the vessel that stands there: its zero is the gross just accepted. */
const nextZero = (state: BatchState, line: LineState, on: OnPan | null): readonly Draft[] => {
  const next = own(state.lines, openLine(state, line.plan.id) ?? ('' as LineId));
  if (on === null || next === undefined || isHydroxide(next.plan)) return [];
  const goesOn =
    next.plan.vessel === on.vessel && next.plan.scale === line.plan.scale && next.plan.mode === 'gain' && line.plan.mode === 'gain';
  return goesOn ? [zeroFor(next.plan.id, on)] : [];
};

export const closing = (
  state: BatchState,
  line: LineState,
  outcome: 'within' | 'over' | 'short',
  actual: Milligrams,
  on: OnPan | null,
): readonly Draft[] => [draft('line-closed', { line: line.plan.id, outcome, actual }), ...nextZero(state, line, on)];

/** What follows a weight that was taken: the line is complete, goes on, or is over and waits for its answer. */
export const afterPour = (
  state: BatchState,
  line: LineState,
  total: Milligrams,
  on: OnPan | null,
  short: 'part' | 'fine',
): readonly Draft[] => {
  const { plan } = line;
  const verdict = verdictOf(plan, total);
  if (verdict === 'over') {
    const by = mg(total - plan.target);
    const code = isRed(state, line, total) ? 'over-pour-red' : 'over-pour';
    return [draft('alarm-raised', { code, line: plan.id, instrument: on?.instrument ?? null, detail: String(by), over: { by } })];
  }
  if (verdict === 'within' || short === 'fine') return closing(state, line, verdict, total, on);
  // By its loss a bottle goes on pouring from where it stands, as a filling vessel goes on filling.
  return on === null ? [] : [zeroFor(plan.id, on)];
};

/** Lines that what leaves makes short are to be poured on, while that can still be done. */
export const fallenShort = (state: BatchState, shares: readonly Share[]): readonly Draft[] =>
  state.joined !== null
    ? []
    : shares.flatMap(({ line: id, mass }) => {
        const line = own(state.lines, id);
        const short = line?.status === 'closed' && verdictOf(line.plan, mg(line.actual - mass)) === 'short';
        return short ? [draft('line-reopened', { line: id })] : [];
      });

/**
 * Where the vessel of a contribution stands now, at the weight it was accepted with; `null` when it stands nowhere. A bottle weighed by
 * its loss goes by the name of the vessel it pours into: the line of the pan tells which of the two stands there.
 */
export const stillOn = (state: BatchState, one: LineState['contributions'][number] | undefined): OnPan | null => {
  if (one?.weighed === null || one === undefined) return null;
  const { instrument, gross, zero, episode } = one.weighed;
  const pan = own(state.pans, instrument);
  if (pan?.vessel !== one.vessel) return null;
  const byLoss = (gross - zero) * one.net < 0;
  const bottle = own(state.lines, pan.line)?.plan.mode === 'loss';
  return byLoss === bottle ? { vessel: one.vessel, instrument, gross, episode } : null;
};
