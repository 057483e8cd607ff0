import type { Milligrams } from '#lib/units/mass';
import { mg, subMass } from '#lib/units/mass';
import type { EntryOf, Share } from '../entries';
import type { BatchState, Contribution } from '../state';
import { changeVessel, contribute, deliver, hold, sharesIn, type Evolve } from './parts';

export const moved: Evolve<'moved'> = (state, { body }) => {
  const origin = state.vessels[body.from];
  const after = deliver(state, body.from, body.to, body.shares ?? []);
  const emptied = changeVessel(after, body.from, (vessel) => (vessel.contents === 0 || body.residue !== null ? { state: 'moved' } : {}));
  return changeVessel(emptied, body.to, (vessel) => ({
    state: vessel.state === 'empty' || vessel.state === 'moved' ? (origin?.state ?? 'filling') : vessel.state,
    standing: null,
    recount: null,
  }));
};

/** What left the batch counts against each line it was made of. */
const leave = (
  state: BatchState,
  entry: EntryOf<'withdrawn'> | EntryOf<'lost'>,
  kind: Contribution['kind'],
  shares: readonly Share[],
): BatchState => {
  const reduced = shares.reduce(
    (before, { line, mass }) =>
      contribute(before, line, {
        entry: entry.id,
        kind,
        net: subMass(mg(0), mass),
        vessel: entry.body.vessel,
        weighed: null,
        how: 'go-on',
        struck: null,
        provisional: false,
        version: entry.version,
        wall: entry.wall,
      }),
    state,
  );
  return changeVessel(hold(reduced, entry.body.vessel, shares, -1), entry.body.vessel, () => ({ standing: null, recount: null }));
};

export const withdrawn: Evolve<'withdrawn'> = (state, entry) => leave(state, entry, 'withdrawn', entry.body.shares ?? []);

export const lost: Evolve<'lost'> = (state, entry) => leave(state, entry, 'lost', entry.body.shares ?? []);

export const split: Evolve<'split'> = (state, entry) => {
  const { vessel, parts, shares = [] } = entry.body;
  const portioned = changeVessel(hold(state, vessel, shares, -1), vessel, () => ({ state: 'portioned', standing: null, recount: null }));
  const portion = ({ name, mass }: { name: string; mass: Milligrams }) => ({ name, mass, vessel, entry: entry.id });
  return { ...portioned, parts: [...state.parts, ...parts.map(portion)] };
};

export const dissolved: Evolve<'dissolved'> = (state, { body }) => {
  const after = deliver(state, body.vessel, body.into, sharesIn(state.vessels[body.vessel]));
  const emptied = changeVessel(after, body.vessel, () => ({ state: 'moved' }));
  const lye = changeVessel(emptied, body.into, () => ({ state: 'dissolved', standing: null, recount: null }));
  // The next hydroxide into this lye needs it confirmed cold again.
  const { 'cold-liquid': _used, ...gates } = lye.gates;
  return { ...lye, gates };
};
