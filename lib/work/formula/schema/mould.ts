import * as z from 'zod/mini';
import type { MassUnit } from '#lib/units/mass';
import type { Mould } from '../mould';
import { oneOf } from '../../words';
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
      unit: oneOf<MassUnit>({ mg: true, g: true, kg: true, oz: true, lb: true }),
      celsius: asTyped,
      cavities: count,
    }),
  ]),
  lengthU: z.nullable(asTyped),
});
