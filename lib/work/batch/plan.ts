import type { ScaleRole } from '#lib/measure/instrument';
import type { LineId, LotId, MaterialId, VesselId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import type { MilliCelsius, MilliKelvin } from '#lib/units/temperature';
import type { PouredBasis } from './poured/basis';
import type { PlanMould, PlanPart } from './pouring/types';

/**
 * What a formula asks of one batch. `batch-started` embeds it whole, so a formula edited later never rewrites a batch.
 * Integers and strings only: the plan is part of a hashed line. Where a computed plan will come from, this is the seam.
 */
export interface Plan {
  readonly formula: { readonly id: string; readonly name: string; readonly version: number };
  readonly vessels: readonly VesselPlan[];
  /** In the order of work: hard fats, liquid oils, what can wait in a cup, liquid, hydroxide, and last what goes in at trace. */
  readonly lines: readonly LinePlan[];
  readonly joining: JoiningPlan;
  /** One for each mould, in the order of their numbers; plans of an older program and typed ones name none. */
  readonly moulds?: readonly PlanMould[];
  /** What leaves the pot for jugs of its own. */
  readonly parts?: readonly PlanPart[];
  /** What the numbers were computed with and what was asked; a typed plan has none. */
  readonly basis?: PlanBasis;
}

/** Frozen with the plan, so that a value corrected later changes nothing here. Fractions are decimal strings. */
export interface PlanBasis {
  /** Of the computation: a later one says so. */
  readonly method: string;
  readonly asked: readonly BasisValue[];
  readonly worked: readonly BasisValue[];
  /** Every material value used, by line. */
  readonly values: readonly (BasisValue & { readonly line: LineId; readonly material: string; readonly lot: string | null })[];
  /** What the formula must stay inside; release compares it with what was poured. */
  readonly limits: readonly { readonly what: string; readonly low: string | null; readonly high: string | null; readonly source: string }[];
  /** What it can be worked out from as poured; plans of an older program have none. */
  readonly poured?: PouredBasis;
}

export interface BasisValue {
  /** "superfat", "saponification value", "purity", … */
  readonly what: string;
  readonly value: string;
  readonly unit: string;
  readonly source: string;
  readonly grade: string;
}

/** `hydroxide` is never accepted automatically. `milk` scorches and has its own limit. */
export type MaterialClass = 'hard-oil' | 'liquid-oil' | 'hydroxide' | 'liquid' | 'milk' | 'acid' | 'fragrance' | 'additive' | 'colourant';

export type VesselUse = 'oils' | 'hydroxide' | 'liquid' | 'aside';
export type VesselMaterial =
  'stainless' | 'plastic-pp' | 'plastic-hdpe' | 'glass' | 'ceramic' | 'silicone' | 'aluminium' | 'zinc' | 'tin' | 'unstated';

export interface VesselPlan {
  readonly id: VesselId;
  /** As read aloud: "oils pot". */
  readonly name: string;
  readonly use: VesselUse;
  readonly material: VesselMaterial;
  /** Empty mass, by which a vessel set down is recognised; `null` when not known yet. */
  readonly empty: Milligrams | null;
  /** Brim volume in whole millilitres; `null` when not stated. */
  readonly brimMl: number | null;
  /** Hottest it may be used at; absent where nobody has said. */
  readonly hottest?: MilliCelsius;
}

/** `aside`: weighed before joining, waits in its cup. `trace`: used after joining, but weighed before it when it can wait. */
export type LinePhase = 'oils' | 'liquid' | 'hydroxide' | 'aside' | 'trace';

/** `gain`: into the vessel on the pan. `loss`: out of a heavy bottle on the pan. `by-hand`: stated by a person. */
export type WeighMode = 'gain' | 'loss' | 'by-hand';

export interface LinePlan {
  readonly id: LineId;
  readonly material: { readonly id: MaterialId; readonly name: string; readonly class: MaterialClass };
  readonly phase: LinePhase;
  readonly target: Milligrams;
  /** Half-width: within means |actual − target| ≤ tolerance. */
  readonly tolerance: Milligrams;
  /** Greatest weight that keeps every result inside the formula's limits; `null` when nobody has computed it: then any over-pour is red. */
  readonly upper: Milligrams | null;
  readonly vessel: VesselId;
  /** A jug that carries its part over into this vessel between weighings: it comes back lighter, and that is no doubt. */
  readonly into?: VesselId;
  /** Most that the vessel or the scale takes at once, where that is less than the target: the bench leads from part to part. */
  readonly atOnce?: Milligrams;
  /** Hydroxide bought or kept in solution, weighed into its jug as the lye it is: nothing of it dissolves, and it does not heat. */
  readonly inSolution?: true;
  /** A liquid that is weighed frozen: its water goes in as ice. */
  readonly frozen?: true;
  readonly scale: ScaleRole;
  /** The scale it was planned for, where the bench it began on had none: `scale` stands in for it. */
  readonly meant?: ScaleRole;
  readonly mode: WeighMode;
  /** Can stand in a cup until after joining. Joining is held until it is ready. */
  readonly canWait: boolean;
  /** `null`: no lot stated; such a line is never accepted by itself. */
  readonly lot: { readonly id: LotId; readonly mark: string } | null;
  /** Superfat points per gram in thousandths (signed), to rank whose error matters most; `null` when not computed. */
  readonly superfatPerGram: number | null;
  /** The part of the batter that it goes into; absent: into all of it. */
  readonly part?: string;
}

export interface JoiningPlan {
  readonly window: { readonly low: MilliCelsius; readonly high: MilliCelsius };
  readonly allowedApart: MilliKelvin;
  /** What a difference beyond `allowedApart` does; lye too hot, oils near setting and milk too hot always hold. */
  readonly apartLevel: 'hold' | 'advise';
  /** Below this the oils begin to set (false trace); `null` when not known. */
  readonly oilsSetAt: MilliCelsius | null;
  /** Where the maker has not said: below this a fat of it may begin to set, by its melting range. Told, and holds nothing; absent: none does. */
  readonly mayStartToSet?: MilliCelsius;
  /** Above this a milk scorches; `null` without milk. */
  readonly milkLimit: MilliCelsius | null;
  /** Where the numbers come from, shown beside them: "common practice, no source". */
  readonly source: string;
}
