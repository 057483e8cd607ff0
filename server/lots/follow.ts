import type { FollowBars, FollowedBack, FollowedBars, FollowedBatch, FollowedGone, FollowedLot, FollowLot } from '#lib/protocol/lots';
import type { BatchListRow } from '#lib/protocol/http';
import { as } from '#lib/units/id';
import type { BarsId, BatchId, PersonId } from '#lib/units/id';
import { hadBy } from '#lib/work/bars/handed';
import type { BarsState, StockMove } from '#lib/work/bars/index';
import type { BatchState, Contribution } from '#lib/work/batch/index';
import { comesIn } from '#lib/work/batch/comes-in';
import { trueNet } from '#lib/work/batch/lots';
import type { Lot } from '#lib/work/formula/index';
import { newest } from '#lib/work/shelf/shelf';
import type { Shelf } from '#lib/work/shelf/shelf';
import { mouldsToBegin } from '../bars/begin';
import { orderName } from '../orders/called';
import type { People } from '../store/people';
import type { Store } from '../store/store';
import { wrapsNamed } from './follow-wrap';

export interface FollowParts {
  readonly store: Pick<Store, 'bars' | 'batches' | 'lots' | 'shelf'>;
  readonly barsState: (id: BarsId) => Promise<BarsState | null>;
  readonly batchState: (id: string) => Promise<BatchState | null>;
  readonly people: Pick<People, 'people'>;
}

const lotOn = (shelf: Shelf, id: string): Lot | null => (newest(shelf, 'lot', id)?.document ?? null) as unknown as Lot | null;

/** From a lot to the batches it is in, their bars, and who has them. `null`: nobody ever received or weighed it. */
export const followLot = async (parts: FollowParts, id: string): Promise<FollowLot | null> => {
  const [rows, named] = await Promise.all([parts.store.lots.batches(id), parts.store.lots.once(id)]);
  // One that was put away is followed all the same.
  const lot = lotOn(parts.store.shelf.now(), id) ?? lastOf(parts.store.shelf.now(), id);
  const [newestRow] = [...rows, ...named];
  if (lot === null && newestRow === undefined) return null;
  const batches = await Promise.all(rows.map((row) => batchOf(parts, row, massIn(row, id))));
  const once = await Promise.all(named.map((row) => batchOf(parts, row, 0)));
  const said = [...(newestRow?.lots ?? []), ...(newestRow?.onceLots ?? [])].find((one) => one.lot === id);
  return { id, mark: lot?.mark ?? said?.mark ?? id, lot, used: batches.reduce((sum, { mass }) => sum + mass, 0), batches, once };
};

const lastOf = (shelf: Shelf, id: string): Lot | null =>
  (shelf.lot.get(id)?.versions.findLast(({ document }) => document !== null)?.document ?? null) as unknown as Lot | null;

const massIn = ({ lots }: BatchListRow, id: string): number =>
  lots.filter(({ lot }) => lot === id).reduce((sum, { mass }) => sum + mass, 0);

/** A batch with its bars. */
export const batchOf = async (parts: FollowParts, row: BatchListRow, mass: number): Promise<FollowedBatch> => {
  const { id, mark, name, realm, status, startedWall } = row;
  return { batch: { id, mark, name, realm, status, startedWall }, mass, bars: await barsOf(parts, as(id)) };
};

const barsOf = async ({ store, barsState, people }: FollowParts, batch: BatchId): Promise<readonly FollowedBars[]> => {
  const names = new Map(people.people().map(({ id, name }) => [id, name]));
  const orders = store.shelf.now();
  const called: Called = {
    who: (to) => (to === null ? null : (names.get(to) ?? null)),
    where: (at) => (at === null ? null : orderName(orders, at)),
  };
  const rows = await store.bars.of(batch);
  return Promise.all(
    rows.map(async ({ id, mark, counts, held, place, wrapped }) => {
      const state = await barsState(as(id));
      const { made, shelf, away, aside } = counts;
      const retained = state?.cut?.testers ?? 0;
      const moves = state?.moves ?? [];
      const [gone, out] = [goneFrom(moves, called), outOf(moves, called)];
      return {
        id,
        mark,
        made,
        shelf,
        away,
        aside,
        held,
        retained,
        place: place?.name ?? null,
        wraps: wrapsNamed(orders, wrapped),
        gone,
        out,
      };
    }),
  );
};

/** Names of people and of orders, by id. */
interface Called {
  readonly who: (to: PersonId | null) => string | null;
  readonly where: (at: string | null) => string | null;
}

const GONE: ReadonlySet<string> = new Set<FollowedGone['kind']>(['sold', 'given', 'spoiled']);

/** What left and stands; bars that came back from a buyer are there again and are told by their count. */
const goneFrom = (moves: readonly StockMove[], { who, where }: Called): readonly FollowedGone[] =>
  moves.flatMap((move): readonly FollowedGone[] => {
    const { kind, count, wall, offsetMin, to, at, from, struck } = move;
    if (struck !== null) return [];
    const rest = { wall, offsetMin, to, name: who(to), at: where(at) };
    if (kind === 'brought-home' && from === 'buyer') return [{ kind: move.was ?? 'sold', count: -count, ...rest }];
    return GONE.has(kind) ? [{ kind: kind as FollowedGone['kind'], count, ...rest }] : [];
  });

const outOf = (moves: readonly StockMove[], { who, where }: Called): readonly FollowedGone[] =>
  hadBy(moves).map(({ was, to, at, count, wall, offsetMin }) => ({
    kind: was,
    count,
    wall,
    offsetMin,
    to,
    name: who(to),
    at: where(at),
  }));

/**
 * From the mark on a bar, or of a batch, back to lots and weights, of every batch that bears it. What a label's code has behind the mark is
 * not part of it. `null`: no batch bears it.
 */
export const followBars = async (parts: FollowParts, said: string): Promise<FollowBars | null> => {
  const mark = (said.trim().split('\n')[0] ?? '').trim();
  const rows = await parts.store.lots.marked(mark.split('/')[0] ?? '');
  const all = (await Promise.all(rows.map((row) => backFrom(parts, row)))).filter((one) => one !== null);
  if (all.length === 0) return null;
  if (!mark.includes('/')) return { mark, isUnknown: false, batches: all.map(({ back }) => back) };
  const bearing = all.filter(({ marks }) => marks.has(mark));
  const narrowed = bearing.map(({ back: { followed, ...inside } }) => ({
    followed: { ...followed, bars: followed.bars.filter((one) => one.mark === mark) },
    ...inside,
  }));
  return narrowed.length > 0
    ? { mark, isUnknown: false, batches: narrowed }
    : { mark, isUnknown: true, batches: all.map(({ back }) => back) };
};

/** One batch back to its lots, with the marks of its bars and of the moulds they have not been begun from. */
const backFrom = async (parts: FollowParts, row: BatchListRow): Promise<{ back: FollowedBack; marks: ReadonlySet<string> } | null> => {
  const state = await parts.batchState(row.id);
  if (state === null) return null;
  const shelf = parts.store.shelf.now();
  const followed = await batchOf(parts, row, 0);
  const marks = new Set([...followed.bars, ...mouldsToBegin(state, shelf)].map((one) => one.mark));
  return { back: { followed, ...insideOf(shelf, state) }, marks };
};

/** Typed, or put right later. */
const isToldByHand = ({ kind, amended }: Contribution): boolean => kind === 'typed' || amended !== undefined;

const insideOf = (shelf: Shelf, state: BatchState): Omit<FollowedBack, 'followed'> => {
  const lots = new Map<string, FollowedLot>();
  const unstated: { material: string; mass: number }[] = [];
  const weights: FollowedBack['weights'][number][] = [];
  for (const id of state.order) {
    const line = state.lines[id];
    if (line === undefined) continue;
    const material = line.plan.material.name;
    const poured = line.contributions.filter((one) => one.struck === null && comesIn(one));
    if (poured.length === 0) continue;
    for (const one of poured) {
      if (one.lot === undefined) {
        unstated.push({ material, mass: trueNet(one) });
        continue;
      }
      const kept = lotOn(shelf, one.lot.id);
      const before = lots.get(one.lot.id);
      lots.set(one.lot.id, {
        lot: one.lot.id,
        mark: one.lot.mark,
        mass: (before?.mass ?? 0) + trueNet(one),
        material,
        supplier: kept?.supplier ?? kept?.certificate?.supplier ?? null,
        bestBefore: kept?.bestBefore ?? null,
        byHand: (before?.byHand ?? false) || isToldByHand(one),
      });
    }
    const marks = [...new Set(poured.flatMap(({ lot }) => (lot === undefined ? [] : [lot.mark])))].join(', ');
    const put = line.contributions.reduce((sum, one) => (one.struck === null ? sum + trueNet(one) : sum), 0);
    weights.push({ material, actual: put, lots: marks, byHand: poured.some(isToldByHand) });
  }
  return { lots: [...lots.values()], unstated, weights };
};
