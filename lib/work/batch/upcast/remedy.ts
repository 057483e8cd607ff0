import * as z from 'zod/mini';
import type { LineId, LotId, VesselId } from '#lib/units/id';
import { oneOf } from '../../words';
import { pouredBasis } from '../poured/schema';
import type { RemedyLimit } from '../remedy/limits';
import type { RemedyChosen, RemedyShown, WrongStated, WrongWhat } from '../remedy/record';
import type { RemedyAct, RemedyClash, RemedyFigures, RemedyKind, RemedyWhy, RemedyWhyNot } from '../remedy/types';
import { id, mass, whole } from './atoms';

const lineId = id<LineId>();
const vesselId = id<VesselId>();

const kind = oneOf<RemedyKind>({
  'carry-on': true,
  'lift-out': true,
  'back-to-bottle': true,
  'take-out': true,
  'finish-pour': true,
  'pour-again': true,
  'use-less': true,
  'use-more': true,
  add: true,
  'least-change': true,
  scale: true,
  scoop: true,
  'pour-off': true,
  split: true,
  stop: true,
});

const why = oneOf<RemedyWhy>({
  'inside-every-limit': true,
  'still-solid': true,
  'in-its-own-vessel': true,
  'finish-what-was-begun': true,
  'back-to-plan': true,
  'not-worked-out': true,
  'least-change': true,
  'only-way': true,
  'safe-though-outside': true,
  'least-doubtful': true,
  'nothing-else': true,
});

const whyNot = oneOf<RemedyWhyNot>({
  'lye-heavy': true,
  'outside-limit': true,
  mixed: true,
  'no-solution': true,
  'not-computed': true,
  'not-solved': true,
});

const limit = oneOf<RemedyLimit>({
  'superfat-zero': true,
  'superfat-least': true,
  'superfat-most': true,
  'lye-weakest': true,
  'lye-strongest': true,
  'lye-dissolves': true,
  'share-least': true,
  'share-most': true,
  fragrance: true,
  'alkali-split-least': true,
  'alkali-split-most': true,
  moulds: true,
  brim: true,
  'scale-capacity': true,
  stock: true,
  'smallest-weight': true,
});

const clash: z.ZodMiniType<RemedyClash> = z.strictObject({
  limit,
  line: z.nullable(lineId),
  vessel: z.nullable(vesselId),
  by: whole,
  unit: z.enum(['ppm', 'mg', 'ml']),
});

const figures: z.ZodMiniType<RemedyFigures> = z.strictObject({
  superfat: z.nullable(z.strictObject({ value: whole, low: whole, high: whole })),
  lyeHeavy: z.nullable(whole),
  lye: z.nullable(whole),
  fragrance: z.nullable(whole),
  shares: z.array(z.strictObject({ line: lineId, ppm: whole })),
  fats: mass,
  batter: mass,
  batterMl: z.nullable(whole),
  full: z.nullable(whole),
});

const share = z.strictObject({ line: lineId, mass });

const shown: z.ZodMiniType<RemedyShown> = z.strictObject({
  kind,
  params: z.record(z.string(), z.union([z.string(), whole])),
  recommended: z.nullable(why),
  whyNot: z.nullable(whyNot),
  figures: z.nullable(figures),
  change: mass,
  added: mass,
  taken: mass,
  leaves: z.array(clash),
  ownBatch: z.exactOptional(z.array(share)),
});

const act: z.ZodMiniType<RemedyAct> = z.union([
  z.strictObject({
    kind: z.enum(['lift-out', 'back-to-bottle', 'take-out']),
    line: lineId,
    vessel: vesselId,
    mass,
    to: z.enum(['bottle', 'waste', 'other-vessel']),
    caustic: z.boolean(),
  }),
  z.strictObject({
    kind: z.enum(['scoop', 'pour-off', 'split-off']),
    vessel: vesselId,
    mass,
    ppm: whole,
    shares: z.array(share),
    to: z.enum(['waste', 'other-vessel']),
    caustic: z.boolean(),
  }),
  z.strictObject({ kind: z.enum(['finish-pour', 'leave']), line: lineId, vessel: vesselId, mass }),
]) as z.ZodMiniType<RemedyAct>;

export const actKind = oneOf<RemedyAct['kind']>({
  'lift-out': true,
  'back-to-bottle': true,
  'take-out': true,
  scoop: true,
  'pour-off': true,
  'split-off': true,
  'finish-pour': true,
  leave: true,
});

export const remedyChosen: z.ZodMiniType<RemedyChosen> = z.strictObject({
  over: z.nullable(z.strictObject({ line: lineId, by: mass, red: z.boolean() })),
  card: shown,
  others: z.array(shown),
  solved: z.boolean(),
  acts: z.array(act),
});

export const wrongStated: z.ZodMiniType<WrongStated> = z.strictObject({
  what: oneOf<WrongWhat>({ spill: true, lot: true, material: true, 'left-in-jug': true, stock: true, melted: true }),
  line: z.nullable(lineId),
  vessel: z.nullable(vesselId),
  mass: z.nullable(mass),
  was: z.exactOptional(lineId),
  lot: z.exactOptional(z.strictObject({ id: id<LotId>(), mark: z.string() })),
  basis: z.exactOptional(pouredBasis),
  beside: z.exactOptional(z.literal(true)),
});
