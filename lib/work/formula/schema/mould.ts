import * as z from 'zod/mini';
import { MASS_UNITS } from '#lib/units/mass';
import type { Mould } from '../mould';
import { asTyped, count, id, name } from './words';

const box = z.strictObject({ kind: z.literal('box'), length: asTyped, width: asTyped, depth: asTyped });
const cylinder = z.strictObject({ kind: z.literal('cylinder'), diameter: asTyped, length: asTyped });

export const mouldSchema: z.ZodMiniType<Mould> = z.strictObject({
  id,
  name: name.check(z.minLength(1)),
  shape: z.discriminatedUnion('kind', [
    box,
    cylinder,
    z.strictObject({ kind: z.literal('tray'), cavities: count, cavity: z.discriminatedUnion('kind', [box, cylinder]) }),
    z.strictObject({
      kind: z.literal('water-fill'),
      water: asTyped,
      unit: z.enum(MASS_UNITS),
      celsius: asTyped,
      cavities: count,
    }),
  ]),
  lengthU: z.nullable(asTyped),
});
