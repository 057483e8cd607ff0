import type { LineId, LotId, MaterialId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import type { MaterialClass } from './plan';
import type { Pattern, Source } from './pouring/types';

/** A mass that may be known only within bounds, whole milligrams. `mass` `null`: not known; the ends then bound it. */
export interface Bounded {
  readonly mass: Milligrams | null;
  readonly low: Milligrams;
  readonly high: Milligrams;
}

/** How much of one source went into a mould. */
export interface MouldShare extends Bounded {
  readonly source: Source;
  /** Of the part; `batter` of the pot. */
  readonly name: string;
}

/** How much of one lot of one line went into a mould, as weighed: nothing has reacted or dried. */
export interface MouldMaterial extends Bounded {
  readonly line: LineId;
  readonly material: { readonly id: MaterialId; readonly name: string; readonly class: MaterialClass };
  /** `null`: no lot was stated. */
  readonly lot: { readonly id: LotId; readonly mark: string } | null;
}

/** One mould of a batch as it was poured. */
export interface MouldMade {
  /** "26-11/1": the batch's mark and the mould's number. */
  readonly mark: string;
  readonly n: number;
  /** What the mould is called in the workshop. */
  readonly name: string;
  /** Id of the mould in the workshop; `null` in plans that name none. */
  readonly mould: string | null;
  /** To the brim; `null` where nobody has said. */
  readonly brimMl: number | null;
  readonly pattern: Pattern | null;
  /** `null`: nobody weighed it, and nobody typed it. */
  readonly mass: Milligrams | null;
  /** A person stated some of its mass. */
  readonly byHand: boolean;
  /** `unknown`: how much came from which jug was not weighed; its label takes all of them. */
  readonly shares: 'known' | 'unknown';
  readonly parts: readonly MouldShare[];
  /** In the order of the batch's lines; those that may be in it at all. Their masses add up to the mould's where they are known. */
  readonly materials: readonly MouldMaterial[];
}
