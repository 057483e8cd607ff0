import * as z from 'zod/mini';
import type { Brand } from '#lib/units/brand';
import type { EntryId, InstrumentId } from '#lib/units/id';
import { MASS_UNITS } from '#lib/units/mass';
import type { Milligrams } from '#lib/units/mass';
import type { ProbeUse } from '#lib/measure/reading';
import { oneOf } from '../../words';
import type { MilliCelsius, MilliKelvin } from '#lib/units/temperature';

/** A schema whose value carries a brand: at run time a brand is nothing. */
type Branded<T> = z.ZodMiniType<T>;

export const id = <T extends Brand<string, string>>(): Branded<T> => z.string().check(z.minLength(1)) as unknown as Branded<T>;
export const whole = z.int();
export const mass = z.int() as unknown as Branded<Milligrams>;
export const degrees = z.int() as unknown as Branded<MilliCelsius>;
export const kelvins = z.int() as unknown as Branded<MilliKelvin>;
export const unit = z.enum(MASS_UNITS);
export const use = oneOf<ProbeUse>({ lye: true, oils: true, room: true, batter: true, mould: true });

/** A settled weight as evidence. */
export const weighed = z.strictObject({
  gross: mass,
  zero: mass,
  net: mass,
  text: z.string(),
  unit,
  step: mass,
  raw: z.string(),
  instrument: id<InstrumentId>(),
  check: z.nullable(id<EntryId>()),
  episode: whole,
  strip: z.nullable(z.string()),
});
