import { as } from '#lib/units/id';
import { grams } from '#lib/units/mass';
import { celsius, milliKelvin } from '#lib/units/temperature';
import type { JoiningPlan, LinePlan, LinePhase, MaterialClass, Plan, VesselMaterial, VesselPlan, VesselUse } from '#lib/work/batch/plan';

/** A received lot a line may be weighed from. */
export interface SampleLot {
  readonly id: string;
  readonly mark: string;
}

/** A plan typed for the invented workshop, with the lots in its stores by line. */
export interface SamplePlan {
  readonly id: string;
  readonly plan: Plan;
  readonly lots: Readonly<Record<string, readonly SampleLot[]>>;
}

export const vessel = (
  id: string,
  name: string,
  use: VesselUse,
  material: VesselMaterial,
  emptyGrams: number | null,
  brimMl: number,
): VesselPlan => ({
  id: as(id),
  name,
  use,
  material,
  empty: emptyGrams === null ? null : grams(emptyGrams),
  brimMl,
});

/** Grams as typed; `perGram` in thousandths of a superfat point. */
interface LineSpec {
  readonly name: string;
  readonly class: MaterialClass;
  readonly phase: LinePhase;
  readonly target: number;
  readonly tolerance: number;
  readonly upper: number | null;
  readonly vessel: string;
  readonly into?: string;
  readonly scale?: LinePlan['scale'];
  readonly mode?: LinePlan['mode'];
  readonly perGram: number;
}

/** A line without a lot: lots are chosen before a batch starts. */
export const line = (id: string, spec: LineSpec): LinePlan => ({
  id: as(id),
  material: { id: as(id), name: spec.name, class: spec.class },
  phase: spec.phase,
  target: grams(spec.target),
  tolerance: grams(spec.tolerance),
  upper: spec.upper === null ? null : grams(spec.upper),
  vessel: as(spec.vessel),
  ...(spec.into === undefined ? {} : { into: as(spec.into) }),
  scale: spec.scale ?? 'main',
  mode: spec.mode ?? 'gain',
  canWait: spec.phase === 'aside',
  lot: null,
  superfatPerGram: spec.perGram,
});

/** 30–50 °C and 6 °C apart: common practice, no source. `setsAt` as this workshop has seen its blend begin to set. */
export const joining = (setsAt: number | null, apartLevel: JoiningPlan['apartLevel'] = 'hold'): JoiningPlan => ({
  window: { low: celsius(30), high: celsius(50) },
  allowedApart: milliKelvin(6_000),
  apartLevel,
  oilsSetAt: setsAt === null ? null : celsius(setsAt),
  milkLimit: null,
  source: 'common practice, no source',
});
