import type { InstrumentId, LineId, VesselId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import { mg } from '#lib/units/mass';
import { isHydroxide } from '../classes';
import type { Command, Refusal } from '../commands';
import type { EntryBodies, Weighed } from '../entries';
import { own } from '../own';
import type { LinePlan, VesselMaterial, VesselPlan } from '../plan';
import { UNSTATED_WITHIN, alike } from '../alike';
import type { BatchState, Contribution, LineState } from '../state';
import { refusal } from './decision';

/** Far beyond any bench, and small enough that sums of many stay whole numbers. */
const GREATEST = 1e12;

/** Every number inside is whole and of a size that can be summed; texts and flags pass. */
export const wholeNumbers = (value: unknown): boolean => {
  if (typeof value === 'number') return Number.isSafeInteger(value) && Math.abs(value) <= GREATEST && !Object.is(value, -0);
  if (typeof value !== 'object' || value === null) return typeof value !== 'bigint' && typeof value !== 'function';
  return Object.values(value).every(wholeNumbers);
};

/** Metals that lye dissolves, with hydrogen given off (SDS of sodium hydroxide, section 10). */
const EATEN: ReadonlySet<VesselMaterial> = new Set(['aluminium', 'zinc', 'tin']);

/** Lye stands or will stand in every vessel but those set aside. */
export const unfit = (vessel: VesselPlan, forHydroxide = false): Refusal | null =>
  EATEN.has(vessel.material) && (forHydroxide || vessel.use !== 'aside')
    ? refusal('unfit-vessel', { vessel: vessel.id, material: vessel.material })
    : null;

export const noSuch = (what: string, id: string): Refusal => refusal('no-such', { what, id });

export const lineOf = (state: BatchState, id: LineId): LineState | undefined => own(state.lines, id);

/** Only the line whose turn it is. */
export const notItsTurn = (state: BatchState, line: LineState): Refusal | null => {
  if (state.joined !== null && isHydroxide(line.plan)) return refusal('after-joining', { line: line.plan.id });
  if (line.plan.id === state.open) return null;
  return refusal('wrong-order', { line: line.plan.id, open: state.open ?? '' });
};

/** A settled weight is used up once: the second to ask for it is late, not wrong. */
export const usedUp = (state: BatchState, command: Command, episode: number): Refusal | null =>
  command.boot === state.consumed.boot && episode <= state.consumed.episode ? refusal('already-done', { episode }) : null;

/** The server's own scale says the same now, settled. */
export const notSettled = (
  command: Command,
  instrument: InstrumentId,
  gross: Milligrams,
  episode: number,
  within: Milligrams = UNSTATED_WITHIN,
): Refusal | null => {
  const { settled } = command.observation;
  const agrees =
    settled !== null && settled.instrument === instrument && settled.episode === episode && alike(settled.gross, gross, within);
  return agrees ? null : refusal('not-settled', { instrument, episode });
};

/** Capacity limits the gross: vessel, what is in it, and the pour. */
export const tooHeavy = (command: Command, instrument: InstrumentId, gross: Milligrams): Refusal | null => {
  const capacity = own<string, Milligrams>(command.observation.capacity ?? {}, instrument);
  return capacity !== undefined && gross > capacity ? refusal('over-capacity', { instrument, gross, capacity }) : null;
};

/** The weight is what the server's own scale says now, and one that scale can carry. */
export const notFromScale = (command: Command, { instrument, gross, episode, step }: Weighed): Refusal | null =>
  notSettled(command, instrument, gross, episode, mg(2 * step)) ?? tooHeavy(command, instrument, gross);

/** Nothing hydroxide before its precautions are confirmed, for this line, with its lot named. */
export const gateMissing = (state: BatchState, plan: LinePlan): Refusal | null => {
  if (!isHydroxide(plan)) return null;
  if (plan.lot === null) return refusal('needs-lot', { line: plan.id });
  return own(state.gateLines, plan.id) === undefined ? refusal('needs-gate', { gate: 'hydroxide', line: plan.id }) : null;
};

/** Every contribution with its line, oldest first. */
export const contributionsIn = (state: BatchState, vessel: VesselId): readonly { line: LineState; one: Contribution }[] =>
  Object.values(state.lines)
    .flatMap((line) => line.contributions.map((one) => ({ line, one })))
    .filter(({ one }) => one.vessel === vessel && one.struck === null)
    .toSorted((a, b) => a.one.version - b.one.version);

export const uncheckedScales = (command: Command): EntryBodies['batch-started']['uncheckedScales'] =>
  (command.observation.scales ?? []).filter((scale) => own<string, unknown>(command.observation.checks, scale) === undefined);

export const blank = (text: string): boolean => text.trim().length === 0;
