import type { PlanBasis } from '../batch/plan';
import type { PlanContext } from './context';
import { materialOfLot } from './effective';
import type { Figure } from './figure';
import type { Line } from './lines';
import type { Lot } from './lot';
import type { UsedValue } from './makeup';
import type { Material, Preparation } from './material';

/** Figures of a material by their key in its document, in the words a plan's basis has. */
const FIGURES = {
  sv: 'saponification value',
  iodine: 'iodine value',
  unsaponifiable: 'unsaponifiable',
  acidValue: 'acid value',
  density: 'density',
  melting: 'melts at',
  purity: 'purity',
  restIsWater: 'water in what is not pure',
  water: 'water',
  fat: 'fat',
  sugar: 'sugar',
  acid: 'acid',
  fatSv: 'saponification value of its fat',
  strength: 'strength',
  vanillin: 'vanillin',
} as const;

type Value = Pick<UsedValue, 'material' | 'lot' | 'what' | 'figure'>;

const isFigure = (value: unknown): value is Figure => typeof value === 'object' && value !== null && 'grade' in value && 'value' in value;

const stated = (value: string, unit: string, source: string, grade: Figure['grade']): Figure => ({ value, unit, source, grade });

/** What its own document says, its lot's certificate first. */
const ofMaterial = (material: Material, lot: Lot | null): readonly Value[] => {
  const one = materialOfLot(material, lot);
  const value = (what: string, figure: Figure): Value => ({ material: material.id, lot: lot?.id ?? null, what, figure });
  const figures = Object.entries(FIGURES).flatMap(([key, what]) => {
    const figure: unknown = (one as unknown as Readonly<Record<string, unknown>>)[key];
    return isFigure(figure) ? [value(what, figure)] : [];
  });
  const fat = one.kind === 'fat' || one.kind === 'wax' ? one : null;
  return [
    ...figures,
    ...(fat === null ? [] : [value('density stated at', { ...fat.density, value: fat.density.celsius, unit: '°C' })]),
    ...(fat?.fattyAcids ?? []).map(({ acid, percent }) => value(`fatty acid ${acid}`, percent)),
    ...(lot === null ? [] : ofCertificate(lot).map(({ what, figure }) => value(what, figure))),
  ];
};

/** What a supplier states that is no figure of the material: who, when, limit, allergens. */
const ofCertificate = ({ certificate }: Lot): readonly Pick<Value, 'what' | 'figure'>[] => {
  if (certificate === null) return [];
  const { date, supplier, limit, allergens } = certificate;
  const source = `${supplier}, certificate of ${date}`;
  return [
    { what: 'certificate of', figure: stated(date, 'date', supplier, 'certificate') },
    ...(limit === undefined ? [] : [{ what: 'limit in the finished bar', figure: stated(limit, '%', source, 'certificate') }]),
    ...(allergens ?? []).map(({ name, percent }) => ({ what: `allergen: ${name}`, figure: stated(percent, '%', source, 'certificate') })),
  ];
};

/** All that stands in a name, down to the materials; a plan was computed, so no preparation holds itself. */
const walk = (id: string, lotId: string | null, context: PlanContext): readonly Value[] => {
  const lot = context.lots.find((one) => one.id === lotId) ?? null;
  const material = context.materials.findLast((one) => one.id === id);
  if (material !== undefined) return ofMaterial(material, lot);
  const preparation = context.preparations.find((one) => one.id === id);
  return preparation === undefined ? [] : ofPreparation(preparation, context);
};

const ofPreparation = ({ name, parts }: Preparation, context: PlanContext): readonly Value[] =>
  parts.flatMap(({ material, lot, percent }) => [
    { material, lot, what: `part of ${name}`, figure: stated(percent, '%', 'Stores', 'typed') },
    ...walk(material, lot, context),
  ]);

/** Every value of a line's material, those its weight was worked out with first: a certificate edited later changes none of them. */
export const valuesOf = ({ plan, item }: Line, context: PlanContext): PlanBasis['values'] => {
  const { found } = item;
  const all: readonly Value[] = [...found.makeup.values, ...walk(found.id, found.lot?.id ?? null, context)];
  const seen = new Set<string>();
  return all.flatMap(({ material, lot, what, figure }) => {
    const key = JSON.stringify([material, lot, what]);
    if (seen.has(key)) return [];
    seen.add(key);
    const { value, unit, source, grade } = figure;
    return [{ line: plan.id, material, lot, what, value, unit, source, grade }];
  });
};
