import { materialsById } from '#lib/work/formula/index';
import type { Lot, Material, Part, PlanContext, Preparation } from '#lib/work/formula/index';

const KINDS: Readonly<Record<Part, readonly Material['kind'][]>> = {
  fat: ['fat', 'wax'],
  alkali: ['alkali'],
  liquid: ['liquid'],
  acid: ['acid'],
  fragrance: ['fragrance'],
  extra: ['additive', 'colourant', 'fat', 'wax', 'liquid'],
};

/** Mostly water: honey and dry milk are stirred in. */
const dissolves = (material: Material): boolean => material.kind === 'liquid' && Number(material.water.value) >= 50;

/** What a sheet chooses from. Of two materials by one id the maker's counts. */
export interface Materials {
  readonly of: (id: string | null) => Material | undefined;
  readonly nameOf: (id: string | null) => string;
  /** Ids and names of what may play a part, by name. */
  readonly forPart: (part: Part) => readonly (readonly [string, string])[];
  readonly lotsOf: (material: string | null) => readonly Lot[];
}

export const materialsOf = (context: PlanContext): Materials => {
  const all = materialsById(context.materials);
  const preparations = new Map(context.preparations.map((one) => [one.id, one]));
  const byPart = new Map<Part, readonly (readonly [string, string])[]>();
  /** A stock lye, whatever it was made of in between: hydroxide and nothing else. */
  const holdsAlkali = ({ parts }: Preparation, seen: readonly string[] = []): boolean =>
    parts.some(({ material }) => {
      const inner = seen.includes(material) ? undefined : preparations.get(material);
      return inner === undefined ? all.get(material)?.kind === 'alkali' : holdsAlkali(inner, [...seen, material]);
    });
  const listed = (part: Part): readonly (readonly [string, string])[] =>
    [
      ...[...all.values()]
        .filter((one) => KINDS[part].includes(one.kind) && (part !== 'liquid' || dissolves(one)))
        .map(({ id, name }) => [id, name] as const),
      ...[...preparations.values()].filter((one) => holdsAlkali(one) === (part === 'alkali')).map(({ id, name }) => [id, name] as const),
    ].toSorted(([, a], [, b]) => a.localeCompare(b));
  return {
    of: (id) => (id === null ? undefined : all.get(id)),
    nameOf: (id) => (id === null ? '' : (all.get(id)?.name ?? preparations.get(id)?.name ?? id)),
    forPart(part) {
      const known = byPart.get(part) ?? listed(part);
      byPart.set(part, known);
      return known;
    },
    lotsOf: (material) => context.lots.filter((lot) => lot.material === material),
  };
};

/** Whether ounces of it could be fluid: a liquid, or an oil that stays one. */
export const pours = (material: Material | undefined): boolean =>
  material !== undefined &&
  (material.kind === 'liquid' || material.kind === 'fragrance' || (material.kind === 'fat' && material.melting === null));
