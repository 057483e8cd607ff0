import type { Milligrams } from '#lib/units/mass';
import type { EntryOf, Share } from '../entries';
import type { BatchState, Contribution } from '../state';
import { weighedOf } from './weights';
import { changeVessel, consume, deliver, hold, pourOver, reweigh, takeBack, type Evolve } from './parts';

export const moved: Evolve<'moved'> = (state, { body }) => {
  const origin = state.vessels[body.from];
  const after = deliver(state, body.from, body.to, body.shares ?? []);
  const emptied = changeVessel(after, body.from, (vessel) => (vessel.contents === 0 || body.residue !== null ? { state: 'moved' } : {}));
  const filled = changeVessel(emptied, body.to, (vessel) => ({
    state: vessel.state === 'empty' || vessel.state === 'moved' ? (origin?.state ?? 'filling') : vessel.state,
  }));
  return reweigh(reweigh(filled, body.from, 0 - body.mass), body.to, body.mass);
};

/** What left the batch counts against each line it was made of. */
const leave = (
  state: BatchState,
  entry: EntryOf<'withdrawn'> | EntryOf<'lost'>,
  kind: Contribution['kind'],
  shares: readonly Share[],
  weighed: Contribution['weighed'] = null,
): BatchState => {
  const reduced = takeBack(state, entry, kind, weighed, shares);
  return reweigh(hold(reduced, entry.body.vessel, shares, -1), entry.body.vessel, 0 - entry.body.mass);
};

export const withdrawn: Evolve<'withdrawn'> = (state, entry) => {
  const { shares = [], weighed, begins } = entry.body;
  const left = leave(state, entry, 'withdrawn', shares, weighed === undefined ? null : weighedOf(state, entry, weighed));
  const after = begins === undefined ? left : { ...left, setAside: [...left.setAside, begins] };
  return weighed === undefined ? after : consume(after, entry, weighed.episode);
};

export const lost: Evolve<'lost'> = (state, entry) => leave(state, entry, 'lost', entry.body.shares ?? []);

export const split: Evolve<'split'> = (state, entry) => {
  const { vessel, parts, shares = [], weighed } = entry.body;
  const mass = parts.reduce((sum, part) => sum + part.mass, 0);
  const portioned = changeVessel(reweigh(hold(state, vessel, shares, -1), vessel, -mass), vessel, () => ({ state: 'portioned' }));
  const byHand = weighed === undefined;
  const portion = ({ name, mass }: { name: string; mass: Milligrams }, at: number) => ({
    name,
    mass,
    vessel,
    entry: entry.id,
    byHand,
    ...(at === 0 ? { took: shares } : {}),
  });
  const split = { ...portioned, parts: [...state.parts, ...parts.map(portion)] };
  return weighed === undefined ? split : consume(split, entry, weighed.episode);
};

export const dissolved: Evolve<'dissolved'> = (state, { body }) => {
  const after = pourOver(state, body.vessel, body.into);
  const lye = changeVessel(after, body.into, () => ({ state: 'dissolved' }));
  // The next hydroxide into this lye needs it confirmed cold again.
  const { 'cold-liquid': _used, ...gates } = lye.gates;
  // Another hydroxide heats it anew.
  return { ...lye, gates, lyeForetold: body.foretold ?? null, tops: { ...lye.tops, lye: null } };
};
