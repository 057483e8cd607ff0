import * as z from 'zod/mini';
import { HIGHEST, LOWEST } from '#lib/measure/probe/boiling';
import type { ProbeCheck } from '#lib/measure/probe/check';
import type { ProbeUse } from '#lib/measure/reading';
import { MOST_WEIGHED } from '#lib/units/mass';
import { fillSchema, formulaSchema, lotSchema, materialSchema, mouldSchema, preparationSchema } from '../formula/index';
import type { Losses, Pace, Size, WorkshopVessel } from '../formula/index';
import { sizeSchema } from '../formula/schema/formula';
import { asTyped, count, id, name, note } from '../formula/schema/words';
import { cureSchema, cutterSchema, unmouldSchema } from '../bars/documents';
import { labelSettingsSchema } from '../label/settings';
import { complaintSchema } from '../lots/complaint';
import { goodsSchema, orderSchema, tradeSchema } from '../orders/documents';
import { oneOf } from '../words';
import { vesselMaterial, vesselUse } from '../batch/vessel-words';
import type { Noun } from './shelf';

/** How this maker works: what a plan asks about the person, not about the formula. One document, `id` "maker". */
export interface Habits {
  readonly id: 'maker';
  readonly pace: Pace | null;
  /** °C of the workshop. */
  readonly room: string | null;
  readonly losses: Losses;
  /** Asked once and remembered as theirs; `null` until they have said. */
  readonly superfat: string | null;
  readonly lye: { readonly kind: 'concentration'; readonly percent: string } | { readonly kind: 'ratio'; readonly water: string } | null;
}

/** A batch made ready on paper: the bench starts from it. */
export interface Prepared {
  readonly id: string;
  readonly formula: { readonly id: string; readonly version: number };
  /** `null`: as the formula says. */
  readonly size: Size | null;
  /** Lot by entry of the formula; `null`: chosen at the bench, whatever the formula names. */
  readonly lots: Readonly<Record<string, string | null>>;
  readonly note: string;
}

/** What a maker has said nothing of. */
export const NO_HABITS: Habits = {
  id: 'maker',
  pace: null,
  room: null,
  losses: { residue: null, pour: null },
  superfat: null,
  lye: null,
};

const how = oneOf<'typed' | 'measured'>({ typed: true, measured: true });
const seconds = z.int().check(z.gte(0), z.lte(1_000_000));

const vessel: z.ZodMiniType<Readonly<Record<keyof WorkshopVessel, unknown>>> = z.strictObject({
  id,
  name: name.check(z.minLength(1)),
  use: vesselUse,
  material: vesselMaterial,
  empty: z.nullable(count.check(z.gte(0), z.lte(MOST_WEIGHED))),
  brimMl: z.nullable(count.check(z.gte(1), z.lte(1_000_000))),
  rating: z.nullable(asTyped),
});

const habits: z.ZodMiniType<Habits> = z.strictObject({
  id: z.literal('maker'),
  pace: z.nullable(z.strictObject({ perLine: seconds, melting: seconds, meeting: seconds, pouring: seconds, how })),
  room: z.nullable(asTyped),
  losses: z.strictObject({
    residue: z.nullable(z.strictObject({ grams: asTyped, how })),
    pour: z.nullable(z.strictObject({ percent: asTyped, how })),
  }),
  superfat: z.nullable(asTyped),
  lye: z.nullable(
    z.discriminatedUnion('kind', [
      z.strictObject({ kind: z.literal('concentration'), percent: asTyped }),
      z.strictObject({ kind: z.literal('ratio'), water: asTyped }),
    ]),
  ),
});

const prepared: z.ZodMiniType<Prepared> = z.strictObject({
  id,
  formula: z.strictObject({ id, version: count.check(z.gte(1)) }),
  size: z.nullable(sizeSchema),
  lots: z.record(id, z.nullable(id)),
  note,
});

const milli = z.int().check(z.gte(-55_000), z.lte(200_000));
const point = { shown: milli, is: milli };

const probe: z.ZodMiniType<Readonly<Record<keyof ProbeCheck, unknown>>> = z.strictObject({
  id,
  instrument: id,
  use: oneOf<ProbeUse>({ lye: true, oils: true, room: true, batter: true, mould: true }),
  ice: z.nullable(z.strictObject(point)),
  boiling: z.nullable(z.strictObject({ ...point, metres: count.check(z.gte(LOWEST), z.lte(HIGHEST)) })),
});

/** The shape of every kind of document the shelf keeps. */
export const SCHEMAS: { readonly [N in Noun]: z.ZodMiniType } = {
  formula: formulaSchema,
  material: materialSchema,
  preparation: preparationSchema,
  lot: lotSchema,
  mould: mouldSchema,
  vessel,
  habits,
  prepared,
  fill: fillSchema,
  probe,
  order: orderSchema,
  trade: tradeSchema,
  goods: goodsSchema,
  cutter: cutterSchema,
  cure: cureSchema,
  unmould: unmouldSchema,
  label: labelSettingsSchema,
  complaint: complaintSchema,
};
