import * as z from 'zod/mini';
import type { Fill } from '../fill';
import { asTyped, count, id, name } from './words';

const MOST = 200;

export const fillSchema: z.ZodMiniType<Fill> = z.strictObject({
  id,
  mark: name,
  computed: z.strictObject({ volume: asTyped, grams: asTyped }),
  residue: asTyped,
  pourLoss: asTyped,
  moulds: z
    .array(z.strictObject({ mould: id, name, count, brim: asTyped, full: asTyped, grams: z.nullable(asTyped) }))
    .check(z.maxLength(MOST)),
});
