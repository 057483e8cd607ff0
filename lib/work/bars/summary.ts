import type { Realm } from '../batch/entries';
import type { BarsTraits, MouldKept, PiecesUsed, TrimHow, UnmouldState } from './entries';
import type { BarCounts, BarsState } from './state';
import { forOrders } from './handed';
import type { ForOrder } from './handed';
import { standingState } from './standing';
import { weighingsOf, type Weighing } from './weighings';
import { wrappedOf } from './wrapped';
import type { Wrapped } from './wrapped';

/** One bar lot in a row of the list of bars: enough for the shelf, what is due, and the forecast of its cure. Masses in whole milligrams. */
export interface BarsSummary {
  readonly id: string;
  readonly mark: string;
  readonly batch: string;
  readonly formula: { readonly id: string; readonly name: string; readonly version: number };
  readonly realm: Realm;
  readonly version: number;
  readonly mould: MouldKept;
  readonly moulds: number;
  /** Numbers of those moulds in their batch. */
  readonly numbers: readonly number[];
  readonly pattern: string;
  readonly traits: BarsTraits;
  readonly poured: number;
  readonly water: number | null;
  readonly batter: number | null;
  /** The newest answer that stands, and when it was given. */
  readonly unmould: { readonly state: UnmouldState; readonly wall: number } | null;
  /** Every answer that stands, in minutes since pouring, with the room's temperature where it is known: what the next lots learn from. */
  readonly answers: readonly { readonly state: UnmouldState; readonly minutes: number; readonly room?: number }[];
  readonly cut: { readonly wall: number; readonly count: number; readonly mass: number | null; readonly thickness: number | null } | null;
  readonly label: number | null;
  /** What finishing took, as bars were weighed together before and after. */
  readonly trims: readonly { readonly how: TrimHow; readonly bars: number; readonly before: number; readonly after: number }[];
  /** Left out where nobody has said so. */
  readonly wrapped?: Wrapped;
  /** Lots of wraps that were named until somebody crossed it out; left out where there are none. */
  readonly onceWrapped?: readonly Pick<PiecesUsed, 'goods' | 'lot'>[];
  readonly counts: BarCounts;
  /** What of it went to which order or market. */
  readonly orders: readonly ForOrder[];
  readonly place: { readonly name: string; readonly since: number } | null;
  readonly held: string | null;
  readonly weighings: readonly Weighing[];
  readonly photos: { readonly count: number; readonly last: number | null };
}

const cutOf = ({ cut }: BarsState): BarsSummary['cut'] =>
  cut === null ? null : { wall: cut.wall, count: cut.count, mass: cut.mass, thickness: cut.thickness };

const answersOf = ({ unmould, poured }: BarsState): BarsSummary['answers'] =>
  unmould.flatMap(({ state, wall, struck, room }) =>
    struck === null ? [{ state, minutes: Math.round((wall - poured) / 60_000), ...(room === null ? {} : { room }) }] : [],
  );

export const summaryOf = (state: BarsState): BarsSummary => {
  const { of, mould, pattern, traits, poured, water, batter, label, counts, place, held } = state;
  const noted = state.unmould.findLast(({ struck }) => struck === null);
  const unmould = standingState(state);
  const photos = state.photos.filter(({ struck }) => struck === null);
  return {
    id: state.id,
    mark: state.mark,
    batch: of.batch,
    formula: of.formula,
    realm: state.realm,
    version: state.version,
    mould,
    moulds: state.moulds.length,
    numbers: state.moulds,
    pattern,
    traits,
    poured,
    water,
    batter,
    unmould: unmould === null || noted === undefined ? null : { state: unmould, wall: noted.wall },
    answers: answersOf(state),
    cut: cutOf(state),
    label,
    trims: state.trims.flatMap(({ struck, how, bars, before, after }) => (struck === null ? [{ how, bars, before, after }] : [])),
    ...wrappedOf(state),
    counts,
    orders: forOrders(state.moves),
    place,
    held: held?.reason ?? null,
    weighings: weighingsOf(state),
    photos: { count: photos.length, last: photos.at(-1)?.wall ?? null },
  };
};
