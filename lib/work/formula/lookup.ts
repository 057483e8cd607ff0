import type { MaterialClass } from '../batch/plan';
import { checkCertificate } from './certificate';
import type { PlanContext } from './context';
import { materialOfLot } from './effective';
import type { Lot } from './lot';
import { makeupOf } from './makeup-of';
import { scaled, together, type Makeup } from './makeup';
import type { Material, Preparation } from './material';
import type { Mould } from './mould';
import type { Reader } from './reader';
import type { Warning } from './warning';

/** What a name in a formula stands for. */
export interface Found {
  readonly id: string;
  readonly name: string;
  readonly material: Material | null;
  readonly preparation: Preparation | null;
  readonly lot: Lot | null;
  /** Of one gram. */
  readonly makeup: Makeup;
}

/** The context by id, with what each name comes to worked out once. */
export interface Lookup {
  readonly context: PlanContext;
  readonly warnings: readonly Warning[];
  mould(id: string): Mould | undefined;
  /** `null` after noting why not. */
  find(id: string, lot: string | null, path: string): Found | null;
}

const byId = <T extends { readonly id: string }>(all: readonly T[]): ReadonlyMap<string, T> => new Map(all.map((one) => [one.id, one]));

const SUM_SLACK = 0.0001;
/** Preparations of preparations double quickly; nobody mixes a thousand figures. */
const MOST_PARTS = 1000;

export const lookupOf = (context: PlanContext, reader: Reader): Lookup => {
  const materials = byId(context.materials);
  const preparations = byId(context.preparations);
  const lots = byId(context.lots);
  const moulds = byId(context.moulds);
  const warnings: Warning[] = [];
  const known = new Map<string, Found | null>();

  const lotOf = (id: string | null, material: string, path: string): Lot | null | undefined => {
    if (id === null) return null;
    const lot = lots.get(id);
    if (lot === undefined) return void reader.note('unknown-lot', path, { lot: id });
    if (lot.material !== material) return void reader.note('lot-of-another', path, { lot: lot.mark, material });
    return lot;
  };

  const ofMaterial = (material: Material, lot: Lot | null): Found | null => {
    const before = reader.problems.length;
    warnings.push(...checkCertificate(material, lot, reader));
    const makeup = makeupOf(materialOfLot(material, lot), lot, reader, lot === null ? `materials[${material.id}]` : `lots[${lot.id}]`);
    if (makeup === null || reader.problems.length > before) return null;
    return { id: material.id, name: material.name, material, preparation: null, lot, makeup };
  };

  const ofPreparation = (preparation: Preparation, lot: Lot | null, above: readonly string[]): Found | null => {
    const path = `preparations[${preparation.id}]`;
    if (above.includes(preparation.id)) return reader.note('cycle', path, { chain: [...above, preparation.id].join(' → ') });
    const chain = [...above, preparation.id];
    const parts = preparation.parts.map((part, at) => {
      const share = reader.percent(part.percent, `${path}.parts[${at}].percent`, 'above-zero');
      const found = seek(part.material, part.lot, `${path}.parts[${at}].material`, chain);
      return share === null || found === null ? null : { share, makeup: scaled(found.makeup, share) };
    });
    const sound = parts.filter((part) => part !== null);
    if (sound.length < parts.length) return null;
    const sum = sound.reduce((total, { share }) => total + share, 0);
    if (Math.abs(sum - 1) > SUM_SLACK) return reader.note('shares-sum', `${path}.parts`, { sum: 100 * sum, part: 'preparation' });
    const size = sound.reduce((total, part) => total + part.makeup.values.length, 0);
    if (size > MOST_PARTS) return reader.note('too-large', `${path}.parts`, { value: size, most: MOST_PARTS });
    const makeup = together(sound.map((part) => scaled(part.makeup, 1 / sum)));
    // Hydroxide with a liquid of its own is a stock lye: dissolved, whatever it was made of.
    const wet = makeup.water > 0;
    const alkalis = wet ? makeup.alkalis.map((one) => ({ ...one, dissolved: true })) : makeup.alkalis;
    return { id: preparation.id, name: preparation.name, material: null, preparation, lot, makeup: { ...makeup, alkalis } };
  };

  const seek = (id: string, lotId: string | null, path: string, chain: readonly string[]): Found | null => {
    const key = JSON.stringify([id, lotId]);
    const before = known.get(key);
    if (before !== undefined) return before;
    const [material, preparation] = [materials.get(id), preparations.get(id)];
    if (material === undefined && preparation === undefined) return reader.note('unknown-material', path, { material: id });
    const lot = lotOf(lotId, id, path);
    if (lot === undefined) return null;
    const found = material === undefined ? ofPreparation(preparation as Preparation, lot, chain) : ofMaterial(material, lot);
    known.set(key, found);
    return found;
  };

  return { context, warnings, mould: (id) => moulds.get(id), find: (id, lot, path) => seek(id, lot, path, []) };
};

/** What a line of it is to the bench. */
export const classOf = ({ material, makeup }: Found): MaterialClass => {
  if (material === null) return classOfMixture(makeup);
  switch (material.kind) {
    case 'fat':
    case 'wax':
      return isHard(makeup) ? 'hard-oil' : 'liquid-oil';
    case 'alkali':
      return 'hydroxide';
    case 'liquid':
      return material.scorches ? 'milk' : 'liquid';
    case 'acid':
    case 'additive':
    case 'fragrance':
    case 'colourant':
      break;
  }
  return material.kind;
};

const classOfMixture = (makeup: Makeup): MaterialClass => {
  if (makeup.alkalis.length > 0) return 'hydroxide';
  if (makeup.inert.some(({ what }) => what === 'colourant')) return 'colourant';
  if (makeup.fats.length > 0 && makeup.water === 0) return isHard(makeup) ? 'hard-oil' : 'liquid-oil';
  if (makeup.inert.some(({ what }) => what === 'fragrance')) return 'fragrance';
  if (makeup.water > 0) return makeup.fats.length > 0 ? 'milk' : 'liquid';
  return makeup.acids.length > 0 ? 'acid' : 'additive';
};

/** Set in a workshop of 20 °C. */
const SETS_ABOVE = 22;
export const isHard = ({ fats }: Makeup): boolean => fats.some(({ melting }) => melting !== null && melting.high > SETS_ABOVE);
