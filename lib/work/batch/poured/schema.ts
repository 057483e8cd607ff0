import * as z from 'zod/mini';
import type { InstrumentId, LineId, LotId, MaterialId } from '#lib/units/id';
import type { ScaleRole } from '#lib/measure/instrument';
import { oneOf } from '../../words';
import type { BelievedBasis, LineBasis, PouredBasis } from './basis';
import { id, mass, whole } from '../upcast/atoms';

const text = z.string();
const band = z.tuple([text, text]);

const believed = {
  kind: oneOf<BelievedBasis['kind']>({ certificate: true, profile: true, range: true, label: true }),
  value: text,
  u: z.exactOptional(text),
  low: z.exactOptional(text),
  high: z.exactOptional(text),
};

const belief = z.strictObject({
  ...believed,
  of: z.enum(['sv', 'purity']),
  material: text,
  name: text,
  lot: z.nullable(text),
  otherwise: z.exactOptional(z.strictObject(believed)),
});

const line: z.ZodMiniType<LineBasis> = z.strictObject({
  line: id<LineId>(),
  material: id<MaterialId>(),
  lot: z.nullable(id<LotId>()),
  part: oneOf<LineBasis['part']>({ fat: true, alkali: true, liquid: true, acid: true, fragrance: true, extra: true }),
  inLye: z.boolean(),
  limit: z.nullable(text),
  fats: z.array(
    z.strictObject({
      belief: whole,
      mass: text,
      kind: z.enum(['triglyceride', 'wax', 'free-acid']),
      acidValue: text,
      unsaponifiable: text,
      density: text,
      celsius: text,
    }),
  ),
  alkalis: z.array(z.strictObject({ belief: whole, mass: text, kind: z.enum(['NaOH', 'KOH']), restIsWater: z.nullable(text) })),
  acids: z.array(z.strictObject({ mass: text, strength: text, molesPerGram: text, crystalWater: text })),
  water: text,
  inert: z.array(z.strictObject({ mass: text, density: text, u: text })),
});

export const pouredBasis: z.ZodMiniType<PouredBasis> = z.strictObject({
  beliefs: z.array(belief),
  lines: z.array(line),
  sizing: z.nullable(
    z.strictObject({
      pourAt: text,
      residue: text,
      pourLoss: text,
      calibration: z.nullable(z.strictObject({ factor: text, u: text })),
      brim: z.nullable(z.strictObject({ value: text, u: text })),
    }),
  ),
  limits: z.strictObject({
    superfat: band,
    lye: band,
    shares: z.array(z.strictObject({ line: id<LineId>(), low: text, high: text })),
  }),
  scales: z.array(
    z.strictObject({
      instrument: id<InstrumentId>(),
      role: oneOf<ScaleRole>({ main: true, fine: true }),
      capacity: z.nullable(mass),
      division: z.nullable(mass),
      repeatability: z.nullable(text),
    }),
  ),
});
