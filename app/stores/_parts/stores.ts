import type { ShelfList } from '#lib/protocol/shelf';
import { materialsById } from '#lib/work/formula/index';
import type { Lot, Material, PlanContext, Preparation } from '#lib/work/formula/index';
import type { LotsUsed } from '#lib/protocol/lots';
import type { Answer } from '../../_ui/api';
import { documentOf } from '../../_ui/kept/kind';
import { shelfApi } from '../../_ui/shelf-api';
import { followApi } from './follow-api';
import { wrapName, wrapQuery } from './wrap-lot';

/** What stands in the stores, as lists with versions. */
export interface Stores {
  readonly lots: Shelved;
  readonly materials: Shelved;
  readonly preparations: Shelved;
  /** What batches took of each lot, mg. */
  readonly used: LotsUsed['used'];
  readonly wraps: LotsUsed['wraps'];
}

/** What stands of one kind, and what was put away. */
export type Shelved = Pick<ShelfList, 'items' | 'away'>;

/** All lists, or the first problem. */
export const askStores = async (): Promise<Answer<Stores>> => {
  const [lots, materials, preparations, used] = await Promise.all([
    shelfApi.list('lot'),
    shelfApi.list('material'),
    shelfApi.list('preparation'),
    followApi.used(),
  ]);
  if (!lots.ok) return lots;
  if (!materials.ok) return materials;
  if (!preparations.ok) return preparations;
  if (!used.ok) return used;
  return { ok: true, value: { lots: lots.value, materials: materials.value, preparations: preparations.value, ...used.value } };
};

/** The same as documents. Of two materials by one id the maker's counts. */
export interface Known {
  readonly materials: readonly Material[];
  readonly preparations: readonly Preparation[];
  readonly lots: readonly Lot[];
  readonly nameOf: (id: string) => string;
  /** Ids and names of everything that can be a lot or a part, by name. */
  readonly choices: readonly (readonly [string, string])[];
}

export const knownOf = (stores: Stores): Known => {
  const materials = [...materialsById(stores.materials.items.map((one) => documentOf<Material>(one))).values()];
  const preparations = stores.preparations.items.map((one) => documentOf<Preparation>(one));
  const names = new Map([...materials, ...preparations].map(({ id, name }) => [id, name]));
  return {
    materials,
    preparations,
    lots: stores.lots.items.map((one) => documentOf<Lot>(one)),
    nameOf: (id) => names.get(id) ?? id,
    choices: [...names].toSorted(([, a], [, b]) => a.localeCompare(b)),
  };
};

/** As much of a plan's context as the checks of one document need. */
export const contextOf = ({ materials, preparations, lots }: Known): PlanContext => ({
  materials,
  preparations,
  lots,
  moulds: [],
  vessels: [],
  scales: [],
  pace: null,
  room: null,
  losses: { residue: null, pour: null },
  calibration: null,
});

/** A lot of a material in an address. */
export const lotQuery = (id: string): string => `lot=${encodeURIComponent(id)}`;

/**
 * Every lot there ever was, by the query that names it, with its mark and what it is of: two suppliers' lots may bear one mark, and one put away
 * is recalled as well. Wraps, boxes and labels stand behind the materials.
 */
export const lotOptions = (stores: Stores): readonly (readonly [query: string, label: string])[] => {
  const { nameOf } = knownOf(stores);
  const materials = [...stores.lots.items, ...stores.lots.away]
    .map((item) => [item.id, documentOf<Lot>(item)] as const)
    .map(([id, { mark, material }]) => [lotQuery(id), `${mark}, ${nameOf(material)}`] as const)
    .toSorted(([, a], [, b]) => a.localeCompare(b));
  return [...materials, ...stores.wraps.map((one) => [wrapQuery(one), wrapName(one)] as const)];
};
