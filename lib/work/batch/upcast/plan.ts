import * as z from 'zod/mini';
import type { LineId, LotId, MaterialId, VesselId } from '#lib/units/id';
import type { ScaleRole } from '#lib/measure/instrument';
import type { LinePhase, LinePlan, MaterialClass, Plan, PlanBasis, WeighMode } from '../plan';
import { oneOf } from '../../words';
import { vesselMaterial, vesselUse } from '../vessel-words';
import { degrees, id, kelvins, mass, whole } from './atoms';
import { planMould, planPart } from './pouring';

export const lot = z.strictObject({ id: id<LotId>(), mark: z.string() });

const vessel = z.strictObject({
  id: id<VesselId>(),
  name: z.string(),
  use: vesselUse,
  material: vesselMaterial,
  empty: z.nullable(mass),
  brimMl: z.nullable(whole),
  hottest: z.exactOptional(degrees),
});

export const line: z.ZodMiniType<LinePlan> = z.strictObject({
  id: id<LineId>(),
  material: z.strictObject({
    id: id<MaterialId>(),
    name: z.string(),
    class: oneOf<MaterialClass>({
      'hard-oil': true,
      'liquid-oil': true,
      hydroxide: true,
      liquid: true,
      milk: true,
      acid: true,
      fragrance: true,
      additive: true,
      colourant: true,
    }),
  }),
  phase: oneOf<LinePhase>({ oils: true, liquid: true, hydroxide: true, aside: true, trace: true }),
  target: mass,
  tolerance: mass,
  upper: z.nullable(mass),
  vessel: id<VesselId>(),
  into: z.exactOptional(id<VesselId>()),
  atOnce: z.exactOptional(mass),
  inSolution: z.exactOptional(z.literal(true)),
  frozen: z.exactOptional(z.literal(true)),
  scale: oneOf<ScaleRole>({ main: true, fine: true }),
  meant: z.exactOptional(oneOf<ScaleRole>({ main: true, fine: true })),
  mode: oneOf<WeighMode>({ gain: true, loss: true, 'by-hand': true }),
  canWait: z.boolean(),
  lot: z.nullable(lot),
  superfatPerGram: z.nullable(whole),
  part: z.exactOptional(z.string()),
});

const value = { what: z.string(), value: z.string(), unit: z.string(), source: z.string(), grade: z.string() };
const bound = z.nullable(z.string());

/** Read key for key where it is worked out from (`../poured/read`), not by every page that folds a batch. */
const poured = z.looseObject({}) as unknown as z.ZodMiniType<NonNullable<PlanBasis['poured']>>;

const basis: z.ZodMiniType<PlanBasis> = z.strictObject({
  method: z.string(),
  asked: z.array(z.strictObject(value)),
  worked: z.array(z.strictObject(value)),
  values: z.array(z.strictObject({ ...value, line: id<LineId>(), material: z.string(), lot: bound })),
  limits: z.array(z.strictObject({ what: z.string(), low: bound, high: bound, source: z.string() })),
  poured: z.exactOptional(poured),
});

export const plan: z.ZodMiniType<Plan> = z.strictObject({
  formula: z.strictObject({ id: z.string(), name: z.string(), version: whole }),
  vessels: z.array(vessel),
  lines: z.array(line),
  joining: z.strictObject({
    window: z.strictObject({ low: degrees, high: degrees }),
    allowedApart: kelvins,
    apartLevel: oneOf<Plan['joining']['apartLevel']>({ hold: true, advise: true }),
    oilsSetAt: z.nullable(degrees),
    mayStartToSet: z.exactOptional(degrees),
    milkLimit: z.nullable(degrees),
    source: z.string(),
  }),
  moulds: z.exactOptional(z.array(planMould)),
  parts: z.exactOptional(z.array(planPart)),
  basis: z.exactOptional(basis),
});
