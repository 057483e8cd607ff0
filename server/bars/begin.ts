import type { MouldOffered } from '#lib/protocol/bars';
import type { BatchState } from '#lib/work/batch/index';
import { begunFrom, mouldKept, offeredOf } from '#lib/work/bars/offered';
import type { Offered, Workshop } from '#lib/work/bars/offered';
import type { BarsBodies, MouldKept } from '#lib/work/bars/index';
import { materialsById } from '#lib/work/formula/index';
import type { Formula, Lot, Mould } from '#lib/work/formula/index';
import { mg } from '#lib/units/mass';
import { contextOf } from '#lib/work/shelf/context';
import { newest, versionOf } from '#lib/work/shelf/shelf';
import type { Noun, Shelf } from '#lib/work/shelf/shelf';

/** What a page may say of a mould that the batch does not name, or that was another one. */
export interface MouldSaid {
  readonly mould?: { readonly id: string | null; readonly name: string; readonly cavities: number } | undefined;
  readonly batter?: number | undefined;
  readonly pattern?: string | undefined;
}

const workshopOf = (shelf: Shelf): Workshop => {
  const find = <T>(noun: Noun, id: string): T | null => (newest(shelf, noun, id)?.document as unknown as T | undefined) ?? null;
  const materials = materialsById(contextOf(shelf, []).materials);
  return {
    mould: (id) => find<Mould>('mould', id),
    lot: (id) => find<Lot>('lot', id),
    material: (id) => materials.get(id) ?? null,
    formula: (id, version) => (versionOf(shelf, 'formula', id, version)?.document as unknown as Formula | undefined) ?? null,
  };
};

/** Moulds that bars can be begun from. */
export const mouldsToBegin = (batch: BatchState, shelf: Shelf): readonly MouldOffered[] => offeredOf(batch, workshopOf(shelf));

/** The lot that some moulds of a closed batch become; `null`: the batch has no such mould. */
export const begunOf = (batch: BatchState, shelf: Shelf, numbers: readonly number[], said: MouldSaid): BarsBodies['bars-begun'] | null => {
  const workshop = workshopOf(shelf);
  const offered = offeredOf(batch, workshop);
  const chosen = numbers.flatMap((n) => offered.find((one) => one.n === n) ?? []).map((one) => asSaid(one, workshop, said));
  const body = chosen.length === numbers.length ? begunFrom(batch, workshop, chosen) : null;
  return body === null || said.batter === undefined ? body : { ...body, batter: mg(said.batter) };
};

const asSaid = (one: Offered, workshop: Workshop, { mould, pattern }: MouldSaid): Offered => ({
  ...one,
  mould: mould === undefined ? one.mould : saidMould(mould, workshop),
  pattern: pattern ?? one.pattern,
});

const saidMould = ({ id, name, cavities }: NonNullable<MouldSaid['mould']>, workshop: Workshop): MouldKept => {
  const known = id === null ? null : workshop.mould(id);
  if (known !== null) return mouldKept(known);
  return { id: null, name, gives: cavities > 1 ? 'bars' : 'log', cavities, length: null, width: null, depth: null };
};
