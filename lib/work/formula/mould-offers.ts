import { mg } from '#lib/units/mass';
import { isOut } from '../bars/due';
import type { BarsSummary } from '../bars/index';
import type { PlanMould } from '../batch/pouring/types';
import type { Mould } from './mould';
import { brimOf } from './mould-volume';
import { createReader } from './reader';

/** A mould of the workshop as it is offered to a batch that has none yet. */
export interface MouldOffer {
  readonly id: string;
  readonly name: string;
  /** To the brim, whole millilitres. */
  readonly brimMl: number;
  /** Marks of the bars that stand in one like it and are not out yet, as far as the record knows. */
  readonly holds: readonly string[];
}

/** Those whose volume is known, those that nothing stands in first. */
export const mouldOffers = (moulds: readonly Mould[], rows: readonly BarsSummary[]): readonly MouldOffer[] => {
  const standing = rows.filter((row) => row.cut === null && !isOut(row));
  return moulds
    .flatMap((mould): readonly MouldOffer[] => {
      const brim = brimOf(mould, createReader());
      const holds = standing.filter((row) => row.mould.id === mould.id).map(({ mark }) => mark);
      return brim === null ? [] : [{ id: mould.id, name: mould.name, brimMl: Math.round(brim.volume.value), holds }];
    })
    .toSorted((a, b) => a.holds.length - b.holds.length);
};

/** What is to be poured: cm³ at pouring, where it is known, and all of it, mg. */
export interface Batter {
  readonly ml: number | null;
  readonly mass: number;
}

/** Moulds as a batch's plan has them: filled alike, and to the brim where there is more than they hold. `null`: one of them is not known. */
export const mouldsFor = (ids: readonly string[], moulds: readonly Mould[], { ml, mass }: Batter): readonly PlanMould[] | null => {
  const offers = mouldOffers(moulds, []);
  const chosen = ids.flatMap((id) => offers.find((one) => one.id === id) ?? []);
  if (chosen.length !== ids.length || new Set(ids).size !== ids.length) return null;
  const room = chosen.reduce((sum, { brimMl }) => sum + brimMl, 0);
  return chosen.map(({ id, name, brimMl }, at) => ({
    n: at + 1,
    mould: id,
    name,
    brimMl,
    mass: ml === null ? null : mg(Math.round((mass * brimMl) / Math.max(room, ml))),
    // Named at the bench before joining, like any.
    pattern: null,
  }));
};
