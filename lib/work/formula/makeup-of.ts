import { acidPortion } from '#lib/soap/acid';
import { purity as purityOf } from '#lib/soap/check';
import { middleProfile } from '#lib/soap/fatty-acid';
import type { Estimate, Source } from '#lib/soap/source';
import { methodUncertainty, type SvBelief } from '#lib/soap/superfat-interval';
import { iodineValue } from '#lib/soap/theory';
import { otherComponent, type OtherKind } from '#lib/soap/volume';
import { numberOf, type Figure } from './figure';
import type { Lot } from './lot';
import { EMPTY, type InertIn, type Makeup, type Origin, type UsedValue } from './makeup';
import type { AlkaliMaterial, FatMaterial, LiquidMaterial, Material } from './material';
import type { Reader } from './reader';

export const HIGHEST_SV = 1000;
/** A value typed without a range: no standard's fat strays further from its middle than this. A judgement. */
const UNRANGED = 0.04;
/** A label's purity without a range: half a width of a point, nothing known inside. A judgement. */
const LABEL = 0.01 / Math.sqrt(3);

/** What one gram of a material is; `material` already as its lot's certificate says. `null` after noting why not. */
export const makeupOf = (material: Material, lot: Lot | null, reader: Reader, path: string): Makeup | null => {
  const origin: Origin = { material: material.id, name: material.name, lot: lot?.id ?? null };
  switch (material.kind) {
    case 'fat':
    case 'wax':
      return ofFat(material, lot, origin, reader, path);
    case 'alkali':
      return ofAlkali(material, lot, origin, reader, path);
    case 'liquid':
      return ofLiquid(material, origin, reader, path);
    case 'acid': {
      if (material.strength === null) return reader.note('strength-missing', `${path}.strength`, { material: material.id });
      const strength = reader.percent(material.strength.value, `${path}.strength`, 'above-zero');
      if (strength === null) return null;
      return { ...EMPTY, acids: [acidPortion(material.acid, 1, strength)], values: [used(origin, 'strength', material.strength)] };
    }
    case 'fragrance':
      return ofInert(material.density, 'fragrance', 'fragrance', origin, reader, path);
    case 'additive':
      return ofInert(material.density, material.like, material.like === 'sugar' ? 'sugar' : 'additive', origin, reader, path);
    case 'colourant':
      break;
  }
  return ofInert(material.density, 'clay', 'colourant', origin, reader, path);
};

const used = (origin: Origin, what: string, figure: Figure): UsedValue => ({ ...origin, what, figure });

const sourceOf = ({ source, grade }: Figure): Source => ({ text: source, grade: grade === 'from memory' ? 'memory' : 'B' });

const LIGHTEST = 0.3;
const DENSEST = 20;

const ofInert = (density: Figure, like: OtherKind, what: InertIn['what'], origin: Origin, reader: Reader, path: string): Makeup | null => {
  const value = reader.within(density.value, `${path}.density`, LIGHTEST, DENSEST);
  if (value === null) return null;
  const usual = otherComponent(1, like).density;
  const estimate: Estimate = { value, u: (usual.u / usual.value) * value, source: sourceOf(density) };
  return { ...EMPTY, inert: [{ ...origin, mass: 1, density: estimate, what }], values: [used(origin, 'density', density)] };
};

const beliefOf = ({ sv, fattyAcids }: FatMaterial, value: number, lot: Lot | null): SvBelief => {
  const stated = numberOf(lot?.certificate?.sv?.u ?? '');
  if (sv.grade === 'certificate') return { kind: 'certificate', u: stated ?? methodUncertainty('certificate', value).u };
  const [low, high] = [numberOf(sv.low ?? ''), numberOf(sv.high ?? '')];
  if (low !== null && high !== null && low > 0 && low <= value && value <= high) return { kind: 'range', low, high };
  if (fattyAcids.length > 0) return { kind: 'profile', u: methodUncertainty('profile', value).u };
  return { kind: 'range', low: value * (1 - UNRANGED), high: value * (1 + UNRANGED) };
};

const ofFat = (material: FatMaterial, lot: Lot | null, origin: Origin, reader: Reader, path: string): Makeup | null => {
  const sv = reader.above(material.sv.value, `${path}.sv`, HIGHEST_SV);
  const density = reader.within(material.density.value, `${path}.density`, LIGHTEST, DENSEST);
  const celsius = reader.within(material.density.celsius, `${path}.density.celsius`, 0, 120);
  const acidValue = material.acidValue === null ? 0 : reader.within(material.acidValue.value, `${path}.acidValue`, 0, sv ?? HIGHEST_SV);
  const un = material.unsaponifiable === null ? 0 : reader.percent(material.unsaponifiable.value, `${path}.unsaponifiable`);
  const shares = material.fattyAcids.map(
    ({ acid, percent }) => [acid, reader.percent(percent.value, `${path}.fattyAcids.${acid}`)] as const,
  );
  if (sv === null || density === null || celsius === null || acidValue === null || un === null) return null;
  const known = shares.flatMap(([acid, share]) => (share === null || share === 0 ? [] : [[acid, [share, share]] as const]));
  const profile = known.length === 0 ? null : middleProfile(Object.fromEntries(known));
  const iodine = profile === null ? numberOf(material.iodine?.value ?? '') : iodineValue(profile, bondOf(material));
  const melting = material.melting === null ? null : meltingOf(material.melting);
  return {
    ...EMPTY,
    fats: [
      {
        ...origin,
        mass: 1,
        sv,
        kind: material.bound,
        acidValue,
        // A limit is not what is there: half of it, except for a wax, whose alcohol is.
        unsaponifiable: un * (material.bound === 'wax' ? 1 : 0.5),
        belief: beliefOf(material, sv, lot),
        density: { value: density, celsius, source: sourceOf(material.density) },
        profile,
        iodine,
        melting,
      },
    ],
    values: [used(origin, 'saponification value', material.sv), used(origin, 'density', material.density)],
  };
};

const bondOf = ({ bound }: FatMaterial): 'triglyceride' | 'free-acid' => (bound === 'free-acid' ? 'free-acid' : 'triglyceride');

const meltingOf = ({ value, low, high }: Figure): { low: number; high: number } | null => {
  const middle = numberOf(value);
  if (middle === null) return null;
  return { low: numberOf(low ?? '') ?? middle, high: numberOf(high ?? '') ?? middle };
};

const ofAlkali = (material: AlkaliMaterial, lot: Lot | null, origin: Origin, reader: Reader, path: string): Makeup | null => {
  if (material.purity === null) return reader.note('purity-missing', `${path}.purity`, { material: material.id });
  const purity = reader.percent(material.purity.value, `${path}.purity`, 'above-zero');
  const restIsWater = reader.percent(material.restIsWater.value, `${path}.restIsWater`);
  if (purity === null || restIsWater === null) return null;
  purityOf(purity, 'a purity');
  const stated = numberOf(lot?.certificate?.purity?.u ?? '');
  const [low, high] = [numberOf(material.purity.low ?? ''), numberOf(material.purity.high ?? '')];
  const ranged = low !== null && high !== null && high > low ? (high - low) / 100 / Math.sqrt(12) : LABEL;
  const certain = stated !== null && stated >= 0;
  const uPurity = certain ? stated / 100 : ranged;
  const purityKind = certain ? 'certificate' : 'label';
  return {
    ...EMPTY,
    alkalis: [
      { ...origin, kind: material.hydroxide, mass: 1, purity, restIsWater, uPurity, purityKind, dissolved: material.form === 'solution' },
    ],
    values: [used(origin, 'purity', material.purity)],
  };
};

/** The fat of a milk is not the titrated oil of a bottle: 3 % either way. A judgement. */
const MILK_FAT = 0.03;
/** Butterfat, melted. */
const MILK_FAT_DENSITY = { value: 0.9, celsius: 40, source: { text: 'butterfat', grade: 'memory' } } as const;

const ofLiquid = (material: LiquidMaterial, origin: Origin, reader: Reader, path: string): Makeup | null => {
  const part = (figure: Figure, name: string): number | null => reader.percent(figure.value, `${path}.${name}`);
  const water = part(material.water, 'water');
  const fat = part(material.fat, 'fat');
  const sugar = part(material.sugar, 'sugar');
  const acid = part(material.acid, 'acid');
  if (water === null || fat === null || sugar === null || acid === null) return null;
  const sum = water + fat + sugar + acid;
  if (sum > 1 + 1e-9) return reader.note('shares-sum', path, { sum: 100 * sum, part: 'liquid' });
  const sv = fat === 0 || material.fatSv === null ? null : reader.above(material.fatSv.value, `${path}.fatSv`, HIGHEST_SV);
  if (fat > 0 && sv === null) return material.fatSv === null ? reader.note('missing', `${path}.fatSv`) : null;
  const solid = (mass: number, what: 'sugar' | 'solids'): readonly InertIn[] =>
    mass <= 0 ? [] : [{ ...origin, mass, what, density: otherComponent(1, what === 'sugar' ? 'sugar' : 'milk-solids').density }];
  return {
    fats:
      sv === null
        ? []
        : [
            {
              ...origin,
              mass: fat,
              sv,
              kind: 'triglyceride',
              belief: { kind: 'range', low: sv * (1 - MILK_FAT), high: sv * (1 + MILK_FAT) },
              density: MILK_FAT_DENSITY,
              profile: null,
              iodine: null,
              melting: null,
            },
          ],
    alkalis: [],
    acids: acid > 0 ? [acidPortion(material.acidAs, acid)] : [],
    water,
    inert: [...solid(sugar, 'sugar'), ...solid(Math.max(0, 1 - sum), 'solids')],
    values: [
      used(origin, 'water', material.water),
      ...(fat > 0 ? [used(origin, 'fat', material.fat)] : []),
      ...(fat > 0 && material.fatSv !== null ? [used(origin, 'saponification value of its fat', material.fatSv)] : []),
      ...(sugar > 0 ? [used(origin, 'sugar', material.sugar)] : []),
      ...(acid > 0 ? [used(origin, 'acid', material.acid)] : []),
    ],
  };
};
