import * as z from 'zod/mini';
import type { Lot } from '../lot';
import { asTyped, date, id, name, sha256 } from './words';

const certified = z.exactOptional(z.strictObject({ value: asTyped, u: z.exactOptional(asTyped) }));

export const lotSchema: z.ZodMiniType<Lot> = z.strictObject({
  id,
  mark: name.check(z.minLength(1)),
  material: id,
  certificate: z.nullable(
    z.strictObject({
      date,
      supplier: name,
      sv: certified,
      svConfirmed: z.exactOptional(asTyped),
      acidValue: certified,
      purity: certified,
      strength: certified,
      density: certified,
      limit: z.exactOptional(asTyped),
      vanillin: z.exactOptional(asTyped),
      allergens: z.exactOptional(z.array(z.strictObject({ name, percent: asTyped }))),
    }),
  ),
  files: z.array(z.strictObject({ sha256, name, type: name })),
});
