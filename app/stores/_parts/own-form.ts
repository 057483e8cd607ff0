import { ACID_IDS } from '#lib/soap/acid';
import { fattyAcidName, isFattyAcid } from '#lib/soap/fatty-acid';
import type { FattyAcid } from '#lib/soap/fatty-acid';
import { CATALOGUE, checkMaterial, numberOf } from '#lib/work/formula/index';
import type { FatMaterial, Figure, Material, MaterialKind } from '#lib/work/formula/index';
import type { Reading } from '../../_ui/kept/kind';
import { at, gather } from '../../_ui/kept/typed';
import type { Gather, Typed } from '../../_ui/kept/typed';
import { problemText } from '../../_ui/problem-messages';
import { own } from '../messages-own';
import { linesText, percentLines } from './percent-lines';

const TYPED = 'typed by the maker';
const SV = 'mg KOH/g';
const GCC = 'g/cm³';

export const kindIn = (typed: Typed): MaterialKind => (at(typed, 'kind') === '' ? 'fat' : (at(typed, 'kind') as MaterialKind));

/** Fatty acids by the names makers read, from those the catalogue has. */
const ACIDS: ReadonlyMap<string, FattyAcid> = new Map(
  CATALOGUE.flatMap((one) => (one.kind === 'fat' || one.kind === 'wax' ? one.fattyAcids : [])).map(({ acid }) => [
    fattyAcidName(acid),
    acid,
  ]),
);

/** A material as a form shows it: every figure as text, with its range. */
export const typedMaterial = (material: Material | null): Typed => {
  if (material === null) return { name: '', kind: 'fat', note: '', source: '' };
  const entries = Object.entries(material).flatMap(([key, value]: [string, unknown]): readonly (readonly [string, string])[] => {
    if (typeof value === 'string') return [[key, value]];
    if (typeof value === 'boolean') return [[key, value ? 'yes' : 'no']];
    if (value === null || typeof value !== 'object' || !('value' in value)) return [];
    const { value: figure, low, high } = value as Figure;
    return [
      [key, figure],
      ...(low === undefined || high === undefined ? [] : [[`${key}.low`, low] as const, [`${key}.high`, high] as const]),
    ];
  });
  const fat = material.kind === 'fat' || material.kind === 'wax';
  return {
    ...Object.fromEntries(entries),
    note: material.note ?? '',
    source: sourceIn(material),
    ...(fat ? { 'density.celsius': material.density.celsius, fattyAcids: acidsText(material) } : {}),
  };
};

const acidsText = ({ fattyAcids }: FatMaterial): string =>
  linesText(fattyAcids.map(({ acid, percent }) => ({ name: fattyAcidName(acid), percent: percent.value })));

/** Where its first figure comes from; empty where nobody said. */
const sourceIn = (material: Material): string => {
  const first = Object.values(material).find((one: unknown): one is Figure => typeof one === 'object' && one !== null && 'source' in one);
  const source = first?.source ?? '';
  return source === TYPED ? '' : source;
};

interface Figures {
  readonly must: (key: string, unit: string, most: number) => Figure;
  readonly may: (key: string, unit: string, most: number) => Figure | null;
}

/** Figures of one form, all from the source it names. */
const figuresIn = (read: Gather, source: string): Figures => {
  const of = (key: string, value: string, unit: string, most: number): Figure => {
    const [low, high] = [read.number(`${key}.low`, { to: most }), read.number(`${key}.high`, { to: most })];
    const range = low === null || high === null ? {} : { low, high };
    if (low !== null && high === null) read.must(`${key}.high`);
    if (high !== null && low === null) read.must(`${key}.low`);
    if (low !== null && high !== null && Number(low) > Number(high)) read.note(`${key}.low`, own.upsideDown);
    return { value, ...range, unit, source: source === '' ? TYPED : source, grade: 'typed' };
  };
  return {
    must: (key, unit, most) => of(key, read.must(key, { to: most }), unit, most),
    may(key, unit, most) {
      const value = read.number(key, { to: most });
      return value === null ? null : of(key, value, unit, most);
    },
  };
};

const acidsIn = (typed: Typed, read: Gather, source: string): FatMaterial['fattyAcids'] =>
  percentLines(at(typed, 'fattyAcids'), (why) => read.note('fattyAcids', why)).flatMap(({ name, percent }) => {
    const acid = isFattyAcid(name) ? name : ACIDS.get(name.toLocaleLowerCase());
    if (acid === undefined) {
      read.note('fattyAcids', own.unknownAcid(name));
      return [];
    }
    return [{ acid, percent: { value: percent, unit: '%', source: source === '' ? TYPED : source, grade: 'typed' } }];
  });

/** What it is called on a label, where somebody has typed it. */
const labelNames = (typed: Typed, read: Gather): Pick<Material, 'inci' | 'saponifiedAs'> => {
  const [inci, soap] = [
    at(typed, 'inci') === '' ? '' : read.name('inci'),
    at(typed, 'saponifiedAs') === '' ? '' : read.name('saponifiedAs'),
  ];
  return { ...(inci === '' ? {} : { inci }), ...(soap === '' ? {} : { saponifiedAs: soap }) };
};

const materialOf = (id: string, typed: Typed, read: Gather): Material => {
  const source = at(typed, 'source');
  const note = at(typed, 'note');
  const common = { id, name: read.name('name'), origin: 'maker', note: note === '' ? null : note, ...labelNames(typed, read) } as const;
  const { must, may } = figuresIn(read, source);
  const chosen = <T extends string>(key: string, all: readonly T[], first: T): T => all.find((one) => one === at(typed, key)) ?? first;
  const kind = kindIn(typed);
  switch (kind) {
    case 'fat':
    case 'wax':
      return {
        ...common,
        kind,
        bound: chosen('bound', ['triglyceride', 'wax', 'free-acid'], kind === 'wax' ? 'wax' : 'triglyceride'),
        sv: must('sv', SV, 1000),
        svReason: source,
        iodine: may('iodine', 'g I₂/100 g', 400),
        unsaponifiable: may('unsaponifiable', '%', 100),
        acidValue: may('acidValue', SV, 1000),
        fattyAcids: acidsIn(typed, read, source),
        density: { ...must('density', GCC, 20), celsius: read.must('density.celsius') },
        melting: may('melting', '°C', 150),
      };
    case 'alkali':
      return {
        ...common,
        kind,
        hydroxide: chosen('hydroxide', ['NaOH', 'KOH'], 'NaOH'),
        form: chosen('form', ['solid', 'solution'], 'solid'),
        purity: may('purity', '%', 100),
        restIsWater: must('restIsWater', '%', 100),
      };
    case 'liquid':
      return {
        ...common,
        kind,
        water: must('water', '%', 100),
        fat: must('fat', '%', 100),
        sugar: must('sugar', '%', 100),
        acid: must('acid', '%', 100),
        acidAs: chosen('acidAs', ACID_IDS, 'lactic'),
        fatSv: may('fatSv', SV, 1000),
        scorches: at(typed, 'scorches') === 'yes',
      };
    case 'acid':
      return { ...common, kind, acid: chosen('acid', ACID_IDS, 'citric-anhydrous'), strength: may('strength', '%', 100) };
    case 'additive':
      return {
        ...common,
        kind,
        density: must('density', GCC, 20),
        like: chosen('like', ['sugar', 'salt', 'clay', 'oxide', 'plant-powder', 'milk-solids', 'fragrance'], 'sugar'),
        dissolves: at(typed, 'dissolves') === 'yes',
      };
    case 'fragrance':
      return { ...common, kind, density: must('density', GCC, 20), vanillin: may('vanillin', '%', 100) };
    case 'colourant':
      break;
  }
  return { ...common, kind: 'colourant', density: must('density', GCC, 20) };
};

/** The material a form says, with what the core's own check finds in it. */
export const readMaterial = (id: string, typed: Typed): Reading => {
  const read = gather(typed);
  const document = materialOf(id, typed, read);
  for (const one of checkMaterial(document)) read.note(keyOf(one.path), problemText(one));
  if ('vanillin' in document) read.number('vanillin', { from: 0, to: 100 });
  for (const key of ['iodine', 'melting']) if (key in document) read.number(key, { from: 0 });
  return { document, errors: read.errors, minds: unlikelyIn(document) };
};

/** Shares of a liquid are spoken of beside its water, a fatty acid beside their list. */
const keyOf = (path: string): string => (path === '' ? 'water' : path.replace(/^fattyAcids\..*$/, 'fattyAcids'));

/** Where fats lie, mg KOH/g: from erucic oils and jojoba to milk fat and coconut, with room; from memory. */
const USUAL_SV = { low: 50, high: 360 } as const;

/** What is kept, and is worth another look. */
const unlikelyIn = (material: Material): Readonly<Record<string, string>> => {
  const sv = material.kind === 'fat' || material.kind === 'wax' ? numberOf(material.sv.value) : null;
  return sv === null || (sv >= USUAL_SV.low && sv <= USUAL_SV.high) ? {} : { sv: own.unlikelySv(USUAL_SV.low, USUAL_SV.high) };
};
