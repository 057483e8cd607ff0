import * as z from 'zod/mini';
import { asTyped, count, id, name } from '../formula/schema/words';
import { oneOf } from '../words';

/** A cutter the workshop remembers. Lengths in mm as typed. */
export interface CutterKept {
  readonly id: string;
  readonly name: string;
  /** `fixed`: so many wires in a frame, `gap` clear between two of them. `adjustable`: one wire or blade against a stop. */
  readonly kind: 'fixed' | 'adjustable';
  readonly wires: number | null;
  readonly gap: string | null;
  /** What one cut takes. */
  readonly kerf: string;
  /** Of an adjustable one, the thinnest and thickest bar it is used for. */
  readonly least: string | null;
  readonly most: string | null;
  /** How many ends of a log are faced, and what is taken off each. */
  readonly ends: 0 | 1 | 2;
  readonly trim: string;
}

/** When this maker calls a bar ready, and the day's rounds of it. One document, `id` "maker". */
export interface CureKept {
  readonly id: 'maker';
  /** Days from cutting; `null`: days do not count. */
  readonly days: number | null;
  /** % of the cut weight in a week, over 14 days; `null`: loss does not count. */
  readonly perWeek: string | null;
  /** Days from cutting on which a log is photographed. */
  readonly photos: readonly number[];
  /** Places on the shelf, in their order. */
  readonly places: readonly string[];
}

/** What one formula asks of its logs. Its id is the formula's. Whole hours from pouring; `null`: not said. */
export interface UnmouldKept {
  readonly id: string;
  readonly from: number | null;
  readonly to: number | null;
  /** Salt and wax bars crumble when they are cut later. */
  readonly latestCut: number | null;
}

/** Nothing said yet. 28 days and 0.5 % a week, photographs on the days around a vanillin's darkening: common practice, no source. */
export const USUAL_CURE: CureKept = { id: 'maker', days: 28, perWeek: '0.5', photos: [0, 1, 2, 4, 7, 14, 28], places: [] };

const day = count.check(z.gte(0), z.lte(1000));
const hours = z.nullable(count.check(z.gte(0), z.lte(2000)));

export const cutterSchema: z.ZodMiniType<CutterKept> = z.strictObject({
  id,
  name: name.check(z.minLength(1)),
  kind: oneOf<CutterKept['kind']>({ fixed: true, adjustable: true }),
  wires: z.nullable(count.check(z.gte(1), z.lte(200))),
  gap: z.nullable(asTyped),
  kerf: asTyped,
  least: z.nullable(asTyped),
  most: z.nullable(asTyped),
  ends: z.literal([0, 1, 2]),
  trim: asTyped,
});

export const cureSchema: z.ZodMiniType<CureKept> = z.strictObject({
  id: z.literal('maker'),
  days: z.nullable(day),
  perWeek: z.nullable(asTyped),
  photos: z.array(day).check(z.maxLength(40)),
  places: z.array(name.check(z.minLength(1))).check(z.maxLength(200)),
});

export const unmouldSchema: z.ZodMiniType<UnmouldKept> = z.strictObject({ id, from: hours, to: hours, latestCut: hours });
