import { BrokenHistory } from '../../batch/evolve/index';
import type { BarsEntry, BarsEntryOf, BarsKind } from '../entries';
import type { BarsState, Kept, StockKind, StockMove } from '../state';
import { countsOf } from '../counts';
import { begin } from './begin';
import { crossedOut } from './cross-out';
import { keptOf } from './kept';

type Evolve<K extends BarsKind> = (state: BarsState, entry: BarsEntryOf<K>) => BarsState;

const consumed = (state: BarsState, { boot, body }: BarsEntryOf<'bars-weighed'>): BarsState['consumed'] => {
  const before = state.consumed.boot === boot ? state.consumed.episode : 0;
  return { boot, episode: Math.max(before, body.weighed.episode) };
};

const moved = (state: BarsState, move: StockMove): BarsState => {
  const moves = [...state.moves, move];
  return { ...state, moves, counts: countsOf(state.counts.made, moves) };
};

type Leaving = BarsEntryOf<'bars-sold'> | BarsEntryOf<'bars-given'> | BarsEntryOf<'bars-spoiled'>;

const leaving =
  (kind: StockKind) =>
  (state: BarsState, entry: Leaving): BarsState =>
    moved(state, { ...entry.body, kind, ...keptOf(entry) });

const noted = <T extends object>(list: readonly (T & Kept)[], entry: BarsEntry & { readonly body: T }): readonly (T & Kept)[] => [
  ...list,
  { ...entry.body, ...keptOf(entry) },
];

const EVOLVE: { readonly [K in Exclude<BarsKind, 'bars-begun'>]: Evolve<K> } = {
  'bars-unmould-noted': (state, entry) => ({ ...state, unmould: noted(state.unmould, entry) }),
  'bars-cut': (state, entry) => ({
    ...state,
    cut: { ...entry.body, ...keptOf(entry) },
    counts: countsOf(entry.body.count, state.moves),
  }),
  'bars-trimmed': (state, entry) => ({ ...state, trims: noted(state.trims, entry) }),
  'bars-labelled': (state, { body }) => ({ ...state, label: body.net }),
  'bars-weighed': (state, entry) => {
    const { bar, for: purpose, weighed, known } = entry.body;
    const { net, text, unit, instrument, step, check } = weighed;
    const scale = { instrument, step, checked: check !== null };
    const weight = { bar, for: purpose, net, text, unit, scale, ...(known === undefined ? {} : { known }), ...keptOf(entry) };
    return { ...state, weights: [...state.weights, weight], consumed: consumed(state, entry) };
  },
  'bars-weight-typed': (state, entry) => {
    const { bar, for: purpose, typed } = entry.body;
    return { ...state, weights: [...state.weights, { bar, for: purpose, ...typed, scale: null, ...keptOf(entry) }] };
  },
  'bars-photo': (state, entry) => ({ ...state, photos: noted(state.photos, entry) }),
  'bars-noted': (state, entry) => ({ ...state, notes: noted(state.notes, entry) }),
  'bars-moved': (state, { body, wall }) => ({ ...state, place: { name: body.place, since: wall } }),
  'bars-held': (state, { id, body, wall }) => ({ ...state, held: { entry: id, reason: body.reason, wall } }),
  'bars-released': (state) => ({ ...state, held: null }),
  'bars-wrapped': (state, entry) => ({ ...state, wraps: noted(state.wraps, entry) }),
  'bars-sold': leaving('sold'),
  'bars-given': leaving('given'),
  'bars-spoiled': leaving('spoiled'),
  'bars-taken': (state, entry) => moved(state, { ...entry.body, to: null, from: 'shelf', kind: 'taken', ...keptOf(entry) }),
  'bars-brought-home': (state, entry) => moved(state, { ...entry.body, kind: 'brought-home', ...keptOf(entry) }),
  'bars-corrected': crossedOut,
};

/** The state after one more entry. Throws `BrokenHistory` when it does not follow: nothing is concluded from half a history. */
export const evolve = (state: BarsState | null, entry: BarsEntry): BarsState => {
  if (entry.kind === 'bars-begun') {
    if (state !== null) throw new BrokenHistory(`bars ${entry.batch} begin twice`);
    return begin(entry);
  }
  if (state === null) throw new BrokenHistory(`bars ${entry.batch} begin with ${entry.kind}`);
  if (entry.batch !== state.id) throw new BrokenHistory(`an entry of ${entry.batch} among those of ${state.id}`);
  if (entry.version !== state.version + 1) throw new BrokenHistory(`version ${entry.version} follows ${state.version}`);
  if (!Object.hasOwn(EVOLVE, entry.kind)) throw new BrokenHistory(`this program knows no ${entry.kind}`);
  const apply = EVOLVE[entry.kind] as Evolve<BarsKind>;
  return apply({ ...state, version: entry.version }, entry);
};

/** Every entry of one bar lot, in order, to its state; `null` when there are none. */
export const fold = (entries: readonly BarsEntry[]): BarsState | null => entries.reduce<BarsState | null>(evolve, null);
