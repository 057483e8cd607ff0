import type { EntryOf } from '../entries';
import type { PourState } from '../pouring/types';
import type { BatchState } from '../state';
import { consume, reopen, type Evolve } from './parts';

const changePour = (state: BatchState, change: Partial<PourState>): BatchState => ({ ...state, pour: { ...state.pour, ...change } });

type Amounts = EntryOf<'parted'> | EntryOf<'mould-poured'> | EntryOf<'left-over'>;

/** What an entry of an amount has in common with the others, and its weight used up. */
const amountOf = ({ id, body }: Amounts) => ({ entry: id, mass: body.mass, byHand: body.weighed === undefined, struck: null });
const used = (state: BatchState, entry: Amounts): BatchState =>
  entry.body.weighed === undefined ? state : consume(state, entry, entry.body.weighed.episode);

export const patternNamed: Evolve<'pattern-named'> = (state, { body }) =>
  changePour(state, {
    patterns: { ...state.pour.patterns, [body.mould]: body.pattern },
    trouble: body.why === 'dropped' ? null : state.pour.trouble,
  });

export const containerSet: Evolve<'container-set'> = (state, entry) => {
  const { container, instrument, gross, episode } = entry.body;
  return consume(changePour(state, { set: { ...state.pour.set, [container]: { instrument, gross } } }), entry, episode);
};

/** What is weighed for a part can be weighed now. */
export const parted: Evolve<'parted'> = (state, entry) => {
  const made = { ...amountOf(entry), id: entry.body.part, name: entry.body.name };
  return reopen(used(changePour(state, { parts: [...state.pour.parts, made] }), entry));
};

export const mouldPoured: Evolve<'mould-poured'> = (state, entry) => {
  const { mould, from, weighed } = entry.body;
  const by = weighed === undefined ? 'by-hand' : weighed.gross >= weighed.zero ? 'gain' : 'loss';
  return used(changePour(state, { pours: [...state.pour.pours, { ...amountOf(entry), mould, from, by }] }), entry);
};

export const leftOver: Evolve<'left-over'> = (state, entry) =>
  used(changePour(state, { left: [...state.pour.left, { ...amountOf(entry), of: entry.body.of }] }), entry);

export const batterWrong: Evolve<'batter-wrong'> = (state, { id, wall, body }) =>
  changePour(state, { trouble: body.what, wrongs: [...state.pour.wrongs, { entry: id, what: body.what, wall }] });

export const photoAsked: Evolve<'photo-asked'> = (state, { id, wall, body }) =>
  changePour(state, { photos: [...state.pour.photos, { entry: id, wall, ...body }] });

/** An amount that was crossed out stays, marked; whoever has none of that entry is untouched. */
export const crossOutPour = (pour: PourState, { id, body }: EntryOf<'struck'>): PourState => {
  const cross = <T extends { readonly entry: string }>(all: readonly T[]): readonly T[] =>
    all.some(({ entry }) => entry === body.entry) ? all.map((one) => (one.entry === body.entry ? { ...one, struck: id } : one)) : all;
  const { parts, pours, left } = pour;
  return { ...pour, parts: cross(parts), pours: cross(pours), left: cross(left) };
};
