import { mg, type Milligrams } from '#lib/units/mass';
import { sumOfAll } from '#lib/units/sum';
import type { MaterialClass } from '../batch/plan';
import { numberOf } from '../formula/index';
import type { Lot, Material, Preparation } from '../formula/index';
import type { LabelPart, LabelRole } from './parts';
import type { MaterialNames } from './settings';
import { usualNames } from './usual-names';

/** A material of a mould as far as a label asks: `high` where only bounds are known, for a label takes all that may be in it. */
export interface InMould {
  readonly material: { readonly id: string; readonly name: string; readonly class: MaterialClass };
  readonly lot: { readonly id: string } | null;
  readonly mass: Milligrams | null;
  readonly high: Milligrams;
}

/** What the workshop says of materials, by id; `null`: not kept here. */
export interface LabelWorkshop {
  material(id: string): Material | null;
  preparation(id: string): Preparation | null;
  lot(id: string): Lot | null;
  /** Names the maker typed for labels. */
  names(id: string): MaterialNames | null;
}

export interface Named {
  readonly parts: readonly LabelPart[];
  /** Materials whose name on this label is proposed from memory: nobody has typed it. */
  readonly proposed: readonly string[];
  /** Fragrances of which no certificate says what allergens they bring: that is not known, and not none. */
  readonly silent: readonly string[];
}

const OF_CLASS: Readonly<Record<MaterialClass, LabelRole>> = {
  'hard-oil': 'fat',
  'liquid-oil': 'fat',
  hydroxide: 'alkali',
  liquid: 'other',
  milk: 'other',
  acid: 'other',
  fragrance: 'fragrance',
  additive: 'other',
  colourant: 'colourant',
};

const roleOf = (material: Material | null, kind: MaterialClass): LabelRole => {
  switch (material?.kind) {
    case 'fat':
    case 'wax':
      return 'fat';
    case 'alkali':
      return 'alkali';
    case 'fragrance':
    case 'colourant':
      return material.kind;
    case 'liquid':
    case 'acid':
    case 'additive':
      return 'other';
    case undefined:
      break;
  }
  return OF_CLASS[kind];
};

const WATER = 'water';
/** Nobody mixes preparations of preparations deeper than this; one that holds itself ends here. */
const DEEPEST = 8;

const percentOf = (typed: string | undefined): number | null => {
  const value = numberOf(typed ?? '');
  return value === null || value <= 0 ? null : value / 100;
};

/** Whole milligrams that add up to the mass. */
const shared = (mass: number, weights: readonly number[]): readonly number[] => {
  const sum = sumOfAll(weights);
  let [before, given] = [0, 0];
  return weights.map((weight) => {
    before += weight;
    const upTo = Math.round((mass * before) / sum);
    const own = upTo - given;
    given = upTo;
    return own;
  });
};

/** Names as typed, else as proposed; which were proposed is kept. */
const namesBy =
  (workshop: LabelWorkshop, proposed: Set<string>) =>
  (id: string, role: LabelRole): MaterialNames => {
    const [typed, usual] = [workshop.names(id), usualNames(id, role)];
    if (typed?.inci == null && usual.inci !== null) proposed.add(id);
    return { inci: typed?.inci ?? usual.inci, saponifiedAs: typed?.saponifiedAs ?? usual.saponifiedAs };
  };

interface Amount {
  readonly id: string;
  readonly name: string;
  readonly lot: string | null;
  readonly mass: number;
  readonly kind: MaterialClass;
}

const allergensOf = (lot: Lot | null): LabelPart['allergens'] =>
  Object.fromEntries(
    (lot?.certificate?.allergens ?? []).flatMap(({ name, percent }) => {
      const share = percentOf(percent);
      return share === null || share > 1 ? [] : [[name, share] as const];
    }),
  );

/** What a preparation is made of, by mass; `null`: it is none, or says nothing. */
const apart = ({ id, mass, kind }: Amount, workshop: LabelWorkshop): readonly Amount[] | null => {
  const preparation = workshop.preparation(id);
  const weights = (preparation?.parts ?? []).map(({ percent }) => percentOf(percent) ?? 0);
  if (preparation === null || !weights.some((weight) => weight > 0)) return null;
  const masses = shared(mass, weights);
  return preparation.parts.map(({ material, lot }, at) => ({
    id: material,
    name: workshop.material(material)?.name ?? material,
    lot,
    mass: masses[at] ?? 0,
    kind,
  }));
};

const partsOf = (amount: Amount, workshop: LabelWorkshop, names: ReturnType<typeof namesBy>, depth: number): readonly LabelPart[] => {
  const made = depth < DEEPEST ? apart(amount, workshop) : null;
  if (made !== null) return made.flatMap((one) => partsOf(one, workshop, names, depth + 1));
  const { id, mass, kind } = amount;
  const material = workshop.material(id);
  const lot = amount.lot === null ? null : workshop.lot(amount.lot);
  const role = roleOf(material, kind);
  const whole = {
    material: id,
    name: material?.name ?? amount.name,
    ...names(id, role),
    role,
    allergens: allergensOf(lot),
  };
  if (material?.kind !== 'alkali' || material.form !== 'solution') return [{ ...whole, mass: mg(mass) }];
  const pure = percentOf(lot?.certificate?.purity?.value ?? material.purity?.value) ?? 1;
  const [alkali = 0, water = 0] = shared(mass, [pure, 1 - pure]);
  return [
    { ...whole, mass: mg(alkali) },
    {
      material: WATER,
      name: workshop.material(WATER)?.name ?? WATER,
      ...names(WATER, 'other'),
      role: 'other',
      mass: mg(water),
      allergens: {},
    },
  ];
};

/** Every material of a mould with its names, preparations taken apart into what they are made of, and hydroxide in solution into both. */
export const labelParts = (materials: readonly InMould[], workshop: LabelWorkshop): Named => {
  const proposed = new Set<string>();
  const names = namesBy(workshop, proposed);
  const parts = materials.flatMap(({ material: { id, name, class: kind }, lot, mass, high }) =>
    partsOf({ id, name, lot: lot?.id ?? null, mass: mass ?? high, kind }, workshop, names, 0),
  );
  const silent = parts.flatMap(({ role, material, allergens, mass }) =>
    role === 'fragrance' && mass > 0 && Object.keys(allergens).length === 0 ? [material] : [],
  );
  return { parts, proposed: [...proposed], silent: [...new Set(silent)] };
};
