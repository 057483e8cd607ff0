import * as z from 'zod/mini';
import { ACID_IDS, type AcidId } from '#lib/soap/acid';
import type { Hydroxide } from '#lib/soap/alkali';
import type { FatKind } from '#lib/soap/fat-portion';
import { isFattyAcid, type FattyAcid } from '#lib/soap/fatty-acid';
import type { OtherKind } from '#lib/soap/volume';
import type { FigureGrade } from '../figure';
import type { Material, Preparation } from '../material';
import { oneOf } from '../../words';
import { asTyped, id, name, note } from './words';

const figureShape = {
  value: asTyped,
  low: z.exactOptional(asTyped),
  high: z.exactOptional(asTyped),
  unit: name,
  source: note,
  grade: oneOf<FigureGrade>({
    standard: true,
    handbook: true,
    certificate: true,
    'from memory': true,
    'common practice': true,
    computed: true,
    typed: true,
  }),
};
const figure = z.strictObject(figureShape);
const common = {
  id,
  name: name.check(z.minLength(1)),
  origin: oneOf({ catalogue: true, maker: true }),
  note: z.nullable(note),
  inci: z.exactOptional(name),
  saponifiedAs: z.exactOptional(name),
};
const acid = z.enum(ACID_IDS as [AcidId, ...AcidId[]]);
const fattyAcid = z.custom<FattyAcid>((value) => typeof value === 'string' && isFattyAcid(value));

export const materialSchema: z.ZodMiniType<Material> = z.discriminatedUnion('kind', [
  z.strictObject({
    ...common,
    kind: oneOf<'fat' | 'wax'>({ fat: true, wax: true }),
    bound: oneOf<FatKind>({ triglyceride: true, wax: true, 'free-acid': true }),
    sv: figure,
    svReason: note,
    iodine: z.nullable(figure),
    unsaponifiable: z.nullable(figure),
    acidValue: z.nullable(figure),
    fattyAcids: z.array(z.strictObject({ acid: fattyAcid, percent: figure })),
    density: z.strictObject({ ...figureShape, celsius: asTyped }),
    melting: z.nullable(figure),
  }),
  z.strictObject({
    ...common,
    kind: z.literal('alkali'),
    hydroxide: oneOf<Hydroxide>({ NaOH: true, KOH: true }),
    form: oneOf<'solid' | 'solution'>({ solid: true, solution: true }),
    purity: z.nullable(figure),
    restIsWater: figure,
  }),
  z.strictObject({
    ...common,
    kind: z.literal('liquid'),
    water: figure,
    fat: figure,
    sugar: figure,
    acid: figure,
    acidAs: acid,
    fatSv: z.nullable(figure),
    scorches: z.boolean(),
  }),
  z.strictObject({ ...common, kind: z.literal('acid'), acid, strength: z.nullable(figure) }),
  z.strictObject({
    ...common,
    kind: z.literal('additive'),
    density: figure,
    like: oneOf<OtherKind>({
      fragrance: true,
      sugar: true,
      salt: true,
      clay: true,
      oxide: true,
      'plant-powder': true,
      'milk-solids': true,
    }),
    dissolves: z.boolean(),
  }),
  z.strictObject({ ...common, kind: z.literal('fragrance'), density: figure, vanillin: z.nullable(figure) }),
  z.strictObject({ ...common, kind: z.literal('colourant'), density: figure }),
]);

export const preparationSchema: z.ZodMiniType<Preparation> = z.strictObject({
  id,
  name: name.check(z.minLength(1)),
  parts: z.array(z.strictObject({ material: id, lot: z.nullable(id), percent: asTyped })),
  note: z.nullable(note),
});
