import * as z from 'zod/mini';
import { MASS_UNITS } from '#lib/units/mass';
import type { Formula, Part, ShareOf, VolumeUnit } from '../formula';
import { PATTERNS } from '../../batch/pouring/types';
import { oneOf } from '../../words';
import { asTyped, count, date, id, name, note, sha256 } from './words';

const LONGEST = 200;

const massUnit = z.enum(MASS_UNITS);
const band = z.strictObject({ low: asTyped, high: asTyped });

const amount = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('share'),
    of: oneOf<ShareOf>({ fats: true, batter: true, liquid: true, hydroxide: true, blend: true }),
    percent: asTyped,
  }),
  z.strictObject({ kind: z.literal('mass'), value: asTyped, unit: massUnit }),
  z.strictObject({
    kind: z.literal('volume'),
    value: asTyped,
    unit: oneOf<VolumeUnit>({ ml: true, 'us-fl-oz': true, 'imperial-fl-oz': true }),
  }),
  z.strictObject({ kind: z.literal('rest') }),
  z.strictObject({ kind: z.literal('ounces-unclear'), value: asTyped }),
  z.strictObject({ kind: z.literal('unweighed'), text: name }),
]);

const entry = z.strictObject({
  id,
  part: oneOf<Part>({ fat: true, alkali: true, liquid: true, acid: true, fragrance: true, extra: true }),
  material: z.nullable(id),
  lot: z.nullable(id),
  amount: z.nullable(amount),
  lock: z.nullable(oneOf<'share' | 'mass'>({ share: true, mass: true })),
  keep: z.nullable(band),
  goes: z.nullable(oneOf<'oils' | 'lye' | 'aside' | 'trace'>({ oils: true, lye: true, aside: true, trace: true })),
  frozen: z.boolean(),
  intoPart: z.exactOptional(id),
  weighed: z.exactOptional(z.literal('loss')),
});

export const sizeSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('fats'), value: asTyped, unit: massUnit }),
  z.strictObject({ kind: z.literal('batch'), value: asTyped, unit: massUnit }),
  z.strictObject({ kind: z.literal('bars'), count, value: asTyped, unit: massUnit }),
  z.strictObject({ kind: z.literal('moulds') }),
]);

const temperatures = z.strictObject({
  window: band,
  apart: asTyped,
  apartLevel: oneOf<'hold' | 'advise'>({ hold: true, advise: true }),
  setsAt: z.nullable(asTyped),
  milkLimit: z.nullable(asTyped),
  pourAt: z.nullable(asTyped),
});

const reference = z.strictObject({
  kind: oneOf<'safety-assessment' | 'notification'>({ 'safety-assessment': true, notification: true }),
  number: name,
  date,
  ranges: z.array(z.strictObject({ material: id, low: asTyped, high: asTyped })).check(z.maxLength(LONGEST)),
  file: z.nullable(sha256),
});

export const formulaSchema: z.ZodMiniType<Formula> = z.strictObject({
  id,
  name: name.check(z.minLength(1)),
  version: z.int().check(z.gte(1)),
  note,
  entries: z.array(entry).check(z.maxLength(LONGEST)),
  blends: z
    .array(z.strictObject({ id, name, amount: z.nullable(amount), entries: z.array(id).check(z.maxLength(LONGEST)) }))
    .check(z.maxLength(LONGEST)),
  wishes: z.strictObject({
    superfat: z.nullable(asTyped),
    lye: z.nullable(
      z.discriminatedUnion('kind', [
        z.strictObject({ kind: z.literal('concentration'), percent: asTyped }),
        z.strictObject({ kind: z.literal('ratio'), water: asTyped }),
      ]),
    ),
  }),
  size: z.nullable(sizeSchema),
  moulds: z
    .array(z.strictObject({ mould: id, count, fill: asTyped, pattern: z.exactOptional(z.enum(PATTERNS)) }))
    .check(z.maxLength(LONGEST)),
  batterParts: z.exactOptional(
    z.array(z.strictObject({ id, name: name.check(z.minLength(1)), percent: asTyped })).check(z.maxLength(LONGEST)),
  ),
  limits: z.strictObject({ superfat: z.nullable(band), lye: z.nullable(band) }),
  temperatures: z.nullable(temperatures),
  references: z.array(reference).check(z.maxLength(LONGEST)),
});
