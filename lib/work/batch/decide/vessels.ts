import type { VesselId } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import { CLINGS } from '../alike';
import type { CommandOf } from '../commands';
import type { Draft, Share, Standing } from '../entries';
import { own } from '../own';
import { apportion, asShares, totalOf } from '../shares';
import type { BatchState, VesselState } from '../state';
import { goesBack, holdsHydroxide } from './back-to-stock';
import { blank, contributionsIn, lineOf, notFromScale, unfit } from './checks';
import { allow, deny, draft, refuse, type Decider, type Decision } from './decision';
import { losable } from './losable';
import { fallenShort } from './pour';
import { whereabouts } from './standing';

const noVessel = (id: VesselId): Decision => refuse('no-such', { what: 'vessel', id });

export const move: Decider<'move'> = (state, { body }) => {
  const from = own(state.vessels, body.from);
  const to = own(state.vessels, body.to);
  if (from === undefined || body.from === body.to) return noVessel(body.from);
  if (to === undefined) return noVessel(body.to);
  const { mass, residue } = body;
  if (mass <= 0 || (residue ?? 0) < 0 || mass + (residue ?? 0) > from.contents)
    return refuse('bad-number', { mass, contents: from.contents });
  const alkaline = holdsHydroxide(state, from);
  const no = alkaline ? unfit(to.plan, true) : null;
  if (no !== null) return deny(no);
  // Hydroxide goes into liquid by its own confirmed act, and lye into oils by joining; never by a plain move.
  if (alkaline && to.plan.use !== from.plan.use) return refuse('wrong-order', { from: body.from, to: body.to });
  if (from.state === 'dissolved' && to.state === 'dry') return refuse('wrong-order', { from: body.from, to: body.to });
  return allow(draft('moved', { ...body, shares: apportion(mass, asShares(from.holds)), source: 'by-hand' }));
};

export const withdraw: Decider<'withdraw'> = (state, { body }) => {
  const vessel = own(state.vessels, body.vessel);
  if (vessel === undefined) return noVessel(body.vessel);
  const { mass } = body;
  if (mass <= 0 || mass > vessel.contents) return refuse('bad-number', { mass, contents: vessel.contents });
  if (body.to === 'bottle' && !goesBack(state, vessel)) return refuse('wrong-vessel', { to: body.to });
  const shares = asShares(vessel.holds);
  const ppm = Number((BigInt(mass) * 2_000_000n + BigInt(vessel.contents)) / (2n * BigInt(vessel.contents)));
  const out = apportion(mass, shares);
  return allow(draft('withdrawn', { ...body, ppm, shares: out, source: 'by-hand' }), ...fallenShort(state, out));
};

export const lose: Decider<'lose'> = (state, { body }) => {
  const vessel = own(state.vessels, body.vessel);
  if (vessel === undefined) return noVessel(body.vessel);
  const shares = losable(state, vessel, body.cause);
  if (body.mass <= 0 || body.mass > totalOf(shares)) return refuse('bad-number', { mass: body.mass, contents: totalOf(shares) });
  const out = apportion(body.mass, shares);
  return allow(draft('lost', { ...body, shares: out, source: 'by-hand' }), ...fallenShort(state, out));
};

export const split: Decider<'split'> = (state, command) => {
  const { body } = command;
  const vessel = own(state.vessels, body.vessel);
  if (vessel === undefined) return noVessel(body.vessel);
  if (vessel.state !== 'joined' && vessel.state !== 'portioned') return refuse('wrong-order', { vessel: body.vessel, state: vessel.state });
  if (body.parts.length === 0 || body.parts.some(({ name, mass }) => mass <= 0 || blank(name)))
    return refuse('bad-number', { parts: body.parts.length });
  const mass = mg(body.parts.reduce((sum, part) => sum + part.mass, 0));
  if (mass > vessel.contents) return refuse('bad-number', { mass, contents: vessel.contents });
  const shares = apportion(mass, asShares(vessel.holds));
  const { weighed } = body;
  if (weighed === undefined) return allow(draft('split', { ...body, shares, source: 'by-hand' }));
  const no = notFromScale(command, weighed);
  if (no !== null) return deny(no);
  const { gross, zero, net } = weighed;
  if (body.parts.length !== 1 || net !== mass || net !== zero - gross) return refuse('bad-number', { mass, net });
  return allow(draft('split', { ...body, shares }));
};

/** The vessel in which the batch comes together. */
export const batterVessel = (state: BatchState): VesselState | undefined => {
  const oils = state.order.map((id) => state.lines[id]?.plan).find((plan) => plan?.phase === 'oils');
  const planned = oils === undefined ? undefined : own(state.vessels, oils.into ?? oils.vessel);
  return planned ?? Object.values(state.vessels).find(({ plan }) => plan.use === 'oils');
};

/** Where the contents of a vessel went that nobody noted as poured: into the planned vessel of its line, or into the batter. */
const wentTo = (state: BatchState, vessel: VesselState, planned: VesselId): VesselId | null => {
  if (vessel.deliveredTo !== null) return vessel.deliveredTo;
  if (vessel.plan.id !== planned) return planned;
  const batter = state.joined === null ? undefined : batterVessel(state)?.plan.id;
  return batter === undefined || batter === vessel.plan.id ? null : batter;
};

/**
 * Half of what it should hold at most, or no more than clings to a jug that was poured over already. More is no rest: it stands there to be
 * filled, or to be poured, and its lines would begin again.
 */
const isRest = ({ contents, delivered }: VesselState, net: number): boolean =>
  contents === 0 || 2 * net <= contents || Math.max(net, contents) <= CLINGS * totalOf(asShares(delivered));

export const weighBack: Decider<'weigh-back'> = (state, command) => {
  const { line: id, vessel: vesselId, weighed } = command.body;
  const { gross, zero, net } = weighed;
  const line = lineOf(state, id);
  const vessel = own(state.vessels, vesselId);
  if (line === undefined) return refuse('no-such', { what: 'line', id });
  if (vessel === undefined) return noVessel(vesselId);
  const no = notFromScale(command, weighed);
  if (no !== null) return deny(no);
  if (vessel.empty === null || zero !== vessel.empty || net !== gross - zero || net < 0) return refuse('bad-number', { net, zero });
  const before = contributionsIn(state, vesselId).at(-1);
  if (before?.one.kind === 'weigh-back') return refuse('already-done', { entry: before.one.entry });
  const holds = asShares(vessel.holds);
  const went = asShares(vessel.delivered);
  const mixture = totalOf(went) === 0 ? holds : went;
  if (net > totalOf(holds) + totalOf(went) || !mixture.some((share) => share.line === id))
    return refuse('wrong-vessel', { vessel: vesselId, net });
  if (!isRest(vessel, net)) return refuse('no-jug', { vessel: vesselId, net });
  const to = wentTo(state, vessel, line.plan.into ?? line.plan.vessel);
  if (to === null) return refuse('wrong-order', { vessel: vesselId });
  return allow(...weighedBack(state, command, vessel, to, mixture));
};

/** What is less in the jug than the record holds was poured; what is left of it leaves the batch. */
const weighedBack = (
  state: BatchState,
  { body }: CommandOf<'weigh-back'>,
  vessel: VesselState,
  to: VesselId,
  mixture: readonly Share[],
): readonly Draft[] => {
  const { net } = body.weighed;
  const poured = mg(Math.max(0, vessel.contents - net));
  const gone = apportion(poured, asShares(vessel.holds));
  const still = (share: Share) => mg((own(vessel.holds, share.line) ?? 0) - (gone.find(({ line }) => line === share.line)?.mass ?? 0));
  const wasFull = totalOf(asShares(vessel.delivered)) === 0;
  const shares = wasFull
    ? mixture.map(({ line, mass }) => ({ line, mass: still({ line, mass }) })).filter(({ mass }) => mass > 0)
    : apportion(net, mixture);
  const out = shares.flatMap((share): readonly Standing[] => {
    const here = mg(Math.min(share.mass, still(share)));
    const rest = mg(share.mass - here);
    const stayed = here > 0 ? [{ vessel: vessel.plan.id, line: share.line, mass: here }] : [];
    return rest > 0 ? [...stayed, ...whereabouts(state, share.line, to, rest)] : stayed;
  });
  const moved = poured > 0 ? [draft('moved', { from: vessel.plan.id, to, mass: poured, residue: net, shares: gone })] : [];
  return [...moved, draft('weighed-back', { ...body, shares, out }), ...fallenShort(state, shares)];
};
