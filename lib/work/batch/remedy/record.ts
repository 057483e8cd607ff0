import type { LineId, LotId, VesselId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import type { PouredBasis } from '../poured/basis';
import type { Share } from '../share';
import type { RemedyAct, RemedyCard, RemedyClash, RemedyFigures, RemedyKind, RemedyWhy, RemedyWhyNot } from './types';

/** A card as the record keeps it: what it said it would do, and what would come of it. */
export interface RemedyShown {
  readonly kind: RemedyKind;
  readonly params: Readonly<Record<string, string | number>>;
  readonly recommended: RemedyWhy | null;
  readonly whyNot: RemedyWhyNot | null;
  readonly figures: RemedyFigures | null;
  readonly change: Milligrams;
  readonly added: Milligrams;
  readonly taken: Milligrams;
  readonly leaves: readonly RemedyClash[];
  /** Of a split: what the part set aside needs to be a batch of its own. */
  readonly ownBatch?: readonly Share[];
}

/** Who chose is in the entry's head; this is what, of what, and in answer to what. */
export interface RemedyChosen {
  /** The over-pour it answers; `null`: a wrong that was stated. */
  readonly over: { readonly line: LineId; readonly by: Milligrams; readonly red: boolean } | null;
  readonly card: RemedyShown;
  /** What else was offered, in its order. */
  readonly others: readonly RemedyShown[];
  /** `false`: nothing could be worked out. */
  readonly solved: boolean;
  /** What leaves by hand: led and measured one after another. */
  readonly acts: readonly RemedyAct[];
}

/**
 * What a person states to have gone wrong. `left-in-jug`: it counts as poured and still lies in its jug. `stock`: no more than `mass` of it
 * is left beyond what is in the batch. `melted`: nothing of it lies solid in the pot any more.
 */
export type WrongWhat = 'spill' | 'lot' | 'material' | 'left-in-jug' | 'stock' | 'melted';

export interface WrongStated {
  readonly what: WrongWhat;
  /** `null` where a mixture was spilt. */
  readonly line: LineId | null;
  readonly vessel: VesselId | null;
  readonly mass: Milligrams | null;
  /** The line whose material it truly was. */
  readonly was?: LineId;
  /** The lot it truly was, and what the batch is worked out from with it. */
  readonly lot?: { readonly id: LotId; readonly mark: string };
  readonly basis?: PouredBasis;
  /** Said beside ways out that stand already: they are worked out anew with it, and nothing else is asked. */
  readonly beside?: true;
}

export const shownOf = (card: RemedyCard): RemedyShown => ({
  kind: card.kind,
  params: card.params,
  recommended: card.recommended?.why ?? null,
  whyNot: card.whyNot?.code ?? null,
  figures: card.figures,
  change: card.change,
  added: card.added,
  taken: card.taken,
  leaves: card.leaves,
  ...(card.ownBatch === undefined ? {} : { ownBatch: card.ownBatch }),
});
