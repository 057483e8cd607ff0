import { waterWithAcid, type AcidPortion } from './acid';
import { pureMass, waterWith, type AlkaliPortion, type Hydroxide } from './alkali';
import type { FatPortion } from './fat-portion';
import { sumOf } from '#lib/units/sum';
import type { Estimate } from './source';
import { batterVolume, fatDensity, lyeComponent, otherComponent, type Component, type KnownDensity } from './volume';

/** What some mass is made of, for chemistry and volume. Masses in grams; all parts together come to the mass. */
export interface BatterParts {
  readonly fats: readonly (FatPortion & { readonly density: KnownDensity })[];
  readonly alkalis: readonly AlkaliPortion[];
  readonly acids: readonly AcidPortion[];
  /** Beyond what alkalis and acids bring with them. */
  readonly water: number;
  readonly inert: readonly { readonly mass: number; readonly density: Estimate }[];
}

/** Everything but lye: fats at a temperature, what takes no part, acids as salts. */
export const componentsOf = (
  { fats, inert, acids }: Pick<BatterParts, 'fats' | 'inert' | 'acids'>,
  celsius: number,
): readonly Component[] => [
  ...fats.map(({ mass, density }) => ({ mass, density: fatDensity(density, celsius) })),
  ...inert.map(({ mass, density }) => ({ mass, density })),
  ...acids.map((acid) => otherComponent(acid.mass - waterWithAcid(acid), 'sugar')),
];

type Wet = Pick<BatterParts, 'alkalis' | 'acids' | 'water'>;

/** Water of it all: what stands alone, and what alkali and acid bring. */
export const waterOf = ({ water, alkalis, acids }: Wet): number => water + sumOf(alkalis, waterWith) + sumOf(acids, waterWithAcid);

/** Hydroxide and water as one solution at a temperature; empty without either. @throws RangeError outside the tables */
export const lyeComponents = (parts: Wet, celsius: number): readonly Component[] => {
  const pure = (kind: Hydroxide): number => sumOf(parts.alkalis, (a) => (a.kind === kind ? pureMass(a) : 0));
  const [naoh, koh] = [pure('NaOH'), pure('KOH')];
  const solution = naoh + koh + waterOf(parts);
  // What is in the hydroxide beside it and water is mostly its carbonate.
  const impurity = sumOf(parts.alkalis, (a) => a.mass - pureMass(a) - waterWith(a));
  return [
    ...(solution > 0 ? [lyeComponent(solution, { naoh: naoh / solution, koh: koh / solution }, celsius)] : []),
    ...(impurity > 0 ? [otherComponent(impurity, 'salt')] : []),
  ];
};

/** What the maker's own batches say of computed volumes: true over computed, with its standard uncertainty. */
export interface VolumeFactor {
  readonly factor: number;
  readonly u: number;
}

/** cm³ of a whole batter at pouring temperature, corrected where it can be. @throws RangeError outside the tables */
export const volumeAt = (parts: BatterParts, pourAt: number, calibration: VolumeFactor | null): Estimate => {
  const computed = batterVolume([...componentsOf(parts, pourAt), ...lyeComponents(parts, pourAt)]);
  if (calibration === null) return computed;
  const value = computed.value * calibration.factor;
  return { value, u: (value * calibration.u) / calibration.factor, source: computed.source };
};

/** cm³ that reach the moulds: what stays in the pot stays at the batter's density, pouring loses a share of the rest. Grams, fraction. */
export const pourable = (
  volume: number,
  batter: number,
  { residue, pourLoss }: { readonly residue: number; readonly pourLoss: number },
): number => (volume - residue * (volume / batter)) * (1 - pourLoss);
