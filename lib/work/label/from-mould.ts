import { mg, type Milligrams } from '#lib/units/mass';
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
  const sum = weights.reduce((total, one) => total + one, 0);
  let [before, given] = [0, 0];
  return weights.map((weight) => {
    before += weight;
    const upTo = Math.round((mass * before) / sum);
    const own = upTo - given;
    given = upTo;
    return own;
  });
};

/** Every material of a mould with its names, preparations taken apart into what they are made of, and hydroxide in solution into both. */
export const labelParts = (materials: readonly InMould[], workshop: LabelWorkshop): Named => {
  const proposed = new Set<string>();
  const names = (id: string): MaterialNames => {
    const [typed, usual] = [workshop.names(id), usualNames(id)];
    if (typed?.inci == null && usual.inci !== null) proposed.add(id);
    return { inci: typed?.inci ?? usual.inci, saponifiedAs: typed?.saponifiedAs ?? usual.saponifiedAs };
  };
  const one = (id: string, name: string, lotId: string | null, mass: number, kind: MaterialClass, depth: number): readonly LabelPart[] => {
    const preparation = depth < DEEPEST ? workshop.preparation(id) : null;
    const weights = (preparation?.parts ?? []).map(({ percent }) => percentOf(percent) ?? 0);
    if (preparation !== null && weights.some((weight) => weight > 0)) {
      const masses = shared(mass, weights);
      return preparation.parts.flatMap((part, at) => {
        const own = workshop.material(part.material);
        return one(part.material, own?.name ?? part.material, part.lot, masses[at] ?? 0, kind, depth + 1);
      });
    }
    const material = workshop.material(id);
    const lot = lotId === null ? null : workshop.lot(lotId);
    const part = (of: string, called: string, role: LabelRole, own: number, allergens: LabelPart['allergens'] = {}): LabelPart => ({
      material: of,
      name: called,
      ...names(of),
      mass: mg(own),
      role,
      allergens,
    });
    if (material?.kind === 'alkali' && material.form === 'solution') {
      const pure = percentOf(lot?.certificate?.purity?.value ?? material.purity?.value) ?? 1;
      const [alkali = 0, water = 0] = shared(mass, [pure, 1 - pure]);
      return [part(id, material.name, 'alkali', alkali), part(WATER, workshop.material(WATER)?.name ?? WATER, 'other', water)];
    }
    const certified = (lot?.certificate?.allergens ?? []).flatMap(({ name: allergen, percent }) => {
      const share = percentOf(percent);
      return share === null || share > 1 ? [] : [[allergen, share] as const];
    });
    return [part(id, material?.name ?? name, roleOf(material, kind), mass, Object.fromEntries(certified))];
  };
  const parts = materials.flatMap(({ material: { id, name, class: kind }, lot, mass, high }) =>
    one(id, name, lot?.id ?? null, mass ?? high, kind, 0),
  );
  return { parts, proposed: [...proposed] };
};
