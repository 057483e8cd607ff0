import type { EntryId, LineId, VesselId } from '#lib/units/id';
import { mg, subMass } from '#lib/units/mass';
import type { Entry, EntryKind, EntryOf, Share, Standing } from '../entries';
import { openLine } from '../order';
import { own, without } from '../own';
import type { BatchState, Contribution, LineState, VesselState } from '../state';

/** Applies one kind of entry to a batch whose head (version, boot) is already the entry's. Sums and copies, nothing else. */
export type Evolve<K extends EntryKind> = (state: BatchState, entry: EntryOf<K>) => BatchState;

/** Σ unstruck contributions. */
const actualOf = (contributions: readonly Contribution[]) =>
  mg(contributions.reduce((sum, one) => (one.struck === null ? sum + one.net : sum), 0));

const isByHand = (contributions: readonly Contribution[]) => contributions.some((one) => one.kind === 'typed' && one.struck === null);

export const changeLine = (state: BatchState, id: LineId, change: (line: LineState) => Partial<LineState>): BatchState => {
  const line = own(state.lines, id);
  return line === undefined ? state : { ...state, lines: { ...state.lines, [id]: { ...line, ...change(line) } } };
};

export const changeVessel = (state: BatchState, id: VesselId, change: (vessel: VesselState) => Partial<VesselState>): BatchState => {
  const vessel = own(state.vessels, id);
  return vessel === undefined ? state : { ...state, vessels: { ...state.vessels, [id]: { ...vessel, ...change(vessel) } } };
};

const withContributions = (contributions: readonly Contribution[]): Partial<LineState> => ({
  contributions,
  actual: actualOf(contributions),
  byHand: isByHand(contributions),
});

export const contribute = (state: BatchState, id: LineId, one: Contribution): BatchState =>
  changeLine(state, id, (line) => withContributions([...line.contributions, one]));

/** What a contribution has of its entry. */
export const ofEntry = ({ id, version, wall }: Entry) => ({ entry: id, struck: null, provisional: false, version, wall });

/** What each share of a mixture takes back from the line it came from. */
export const takeBack = (
  state: BatchState,
  entry: EntryOf<'withdrawn'> | EntryOf<'lost'> | EntryOf<'weighed-back'>,
  kind: Contribution['kind'],
  weighed: Contribution['weighed'],
  shares: readonly Share[],
): BatchState =>
  shares.reduce(
    (before, { line, mass }) =>
      contribute(before, line, {
        ...ofEntry(entry),
        kind,
        net: subMass(mg(0), mass),
        vessel: entry.body.vessel,
        weighed,
        how: 'go-on',
        ...(entry.kind === 'withdrawn' && entry.body.to === 'bottle' ? { toBottle: true } : {}),
        ...(entry.kind === 'withdrawn' && entry.body.begins !== undefined ? { toBatch: true } : {}),
      }),
    state,
  );

/** Changes the contributions that match, in every line: a mixture weighed back touches several. */
export const changeContributions = (
  state: BatchState,
  matches: (one: Contribution) => boolean,
  change: Partial<Contribution>,
): BatchState =>
  Object.values(state.lines).reduce<BatchState>(
    (before, { plan, contributions }) =>
      contributions.some(matches)
        ? changeLine(before, plan.id, () => withContributions(contributions.map((one) => (matches(one) ? { ...one, ...change } : one))))
        : before,
    state,
  );

const addShares = (masses: VesselState['holds'], shares: readonly Share[], sign: 1 | -1): VesselState['holds'] => {
  const sums = { ...masses };
  for (const { line, mass } of shares) sums[line] = mg((own(sums, line) ?? 0) + sign * mass);
  return without(sums, (_line, mass) => mass === 0);
};

/** Adds shares to what a vessel holds, or takes them out with `sign` −1. */
export const hold = (state: BatchState, id: VesselId, shares: readonly Share[], sign: 1 | -1 = 1): BatchState =>
  changeVessel(state, id, (vessel) => {
    const holds = addShares(vessel.holds, shares, sign);
    return { holds, contents: mg(Object.values(holds).reduce<number>((sum, mass) => sum + mass, 0)) };
  });

export const takeOut = (state: BatchState, out: readonly Standing[] = []): BatchState =>
  out.reduce((before, one) => hold(before, one.vessel, [one], -1), state);

const sharesIn = (vessel: VesselState | undefined): readonly Share[] =>
  vessel === undefined ? [] : Object.entries(vessel.holds).map(([line, mass]) => ({ line: line as LineId, mass }));

/** Empties one vessel into another, remembering where it went and what it was. */
export const deliver = (state: BatchState, from: VesselId, to: VesselId, shares: readonly Share[]): BatchState => {
  const moved = hold(hold(state, from, shares, -1), to, shares);
  return changeVessel(moved, from, (vessel) => ({
    deliveredTo: to,
    delivered: addShares(vessel.delivered, shares, 1),
  }));
};

/**
 * A vessel that became lighter or heavier by `by` without a weighing: what it should weigh is not known any more, and a pour under
 * way in it counts from a zero shifted by as much.
 */
export const reweigh = (state: BatchState, id: VesselId, by: number): BatchState => {
  const pans = Object.entries(state.pans).map(([instrument, pan]) => [
    instrument,
    pan.vessel === id ? { ...pan, zero: mg(pan.zero + by), reading: null } : pan,
  ]);
  const shifted = { ...state, pans: Object.fromEntries(pans) as BatchState['pans'] };
  return changeVessel(shifted, id, () => ({ standing: null, recount: null }));
};

/** Removes a vessel from every pan: what stood there counts for nothing any more. */
export const offPan = (state: BatchState, vessel: VesselId): BatchState => ({
  ...state,
  pans: without(state.pans, (_instrument, pan) => pan.vessel === vessel),
});

/** All that is in one vessel goes into another; what either weighs now is not known. */
export const pourOver = (state: BatchState, from: VesselId, to: VesselId): BatchState => {
  const poured = deliver(state, from, to, sharesIn(own(state.vessels, from)));
  const known = { standing: null, recount: null };
  const emptied = changeVessel(offPan(offPan(poured, from), to), from, () => ({ ...known, state: 'moved' }));
  return changeVessel(emptied, to, () => known);
};

/** Gives the line to weigh now its place after anything that opened or closed one. */
export const reopen = (state: BatchState): BatchState => {
  const open = openLine(state);
  const statusOf = (id: string, line: LineState): LineState['status'] =>
    line.status === 'closed' ? 'closed' : id === open ? 'open' : 'waiting';
  const changed = Object.entries<LineState>(state.lines)
    .filter(([id, line]) => line.status !== statusOf(id, line))
    .map(([id, line]) => [id, { ...line, status: statusOf(id, line) }] as const);
  const lines = changed.length === 0 ? state.lines : { ...state.lines, ...(Object.fromEntries(changed) as BatchState['lines']) };
  return { ...state, open, lines };
};

/** An episode is used up once per boot. */
export const consume = (state: BatchState, entry: Entry, episode: number): BatchState => ({
  ...state,
  consumed: {
    boot: entry.boot,
    episode: state.consumed.boot === entry.boot ? Math.max(state.consumed.episode, episode) : episode,
  },
});

export const contributionOf = (state: BatchState, entry: EntryId): Contribution | undefined =>
  Object.values(state.lines)
    .flatMap((line) => line.contributions)
    .find((one) => one.entry === entry);
