import * as z from 'zod/mini';
import { isDay } from '#lib/units/day';
import type { Milligrams } from '#lib/units/mass';
import { oneOf } from '../../words';
import type { Lot, LotUse } from '../lot';
import { asTyped, count, date, id, name, sha256 } from './words';

/** A tonne: more of one lot comes to no workshop of this size. */
const MOST = 1_000_000_000;
const amount = count.check(z.gte(-MOST), z.lte(MOST)) as unknown as z.ZodMiniType<Milligrams>;
const day = z.string().check(z.refine(isDay, 'That is no day: 2026-11-03.'));

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
  supplier: z.exactOptional(name),
  received: z.exactOptional(z.strictObject({ day, amount: z.exactOptional(amount.check(z.gte(1))) })),
  opened: z.exactOptional(day),
  bestBefore: z.exactOptional(day),
  state: z.exactOptional(oneOf<LotUse>({ 'in-use': true, quarantined: true, 'used-up': true })),
  why: z.exactOptional(name),
  paid: z.exactOptional(asTyped),
  gtin: z.exactOptional(z.string().check(z.regex(/^\d{14}$/))),
  adjustments: z.exactOptional(z.array(z.strictObject({ day, mass: amount, why: name.check(z.minLength(1)) })).check(z.maxLength(500))),
});
