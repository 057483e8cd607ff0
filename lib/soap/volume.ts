import { above, amount, within } from './check';
import { lyeDensity, type Strength } from './lye/density';
import type { Estimate, Source, Sourced } from './source';

/** A density known at one temperature. */
export interface KnownDensity extends Sourced {
  /** g/cm³ at `celsius`. */
  readonly celsius: number;
}

/** How fast liquid fats thin out, g/cm³ for each kelvin: nearly the same for all of them. */
const FAT_EXPANSION = 0.00067;
const FAT_SOURCE: Source = { text: 'liquid fats lose 0.00064–0.0007 g/cm³ a kelvin', grade: 'memory' };
/** Fats of one name differ by about this much, g/cm³. */
const FAT_SPREAD = 0.002;

/** Density of a melted fat in g/cm³, 10–100 °C. Set fat is denser: the figure holds above its melting range. */
export const fatDensity = (known: KnownDensity, celsius: number): Estimate => {
  within(celsius, 10, 100, 'the density of a melted fat, in °C,');
  const value = above(known.value, 'a density') - FAT_EXPANSION * (celsius - known.celsius);
  const u = Math.hypot(FAT_SPREAD, 0.00003 * (celsius - known.celsius));
  return { value, u, source: { text: `${known.source.text}; ${FAT_SOURCE.text}`, grade: 'memory' } };
};

/** One component of a batter. */
export interface Component {
  /** Grams. */
  readonly mass: number;
  /** g/cm³ at pouring temperature. */
  readonly density: Estimate;
}

/** Lye as a component: grams of hydroxide and water together, by the density of its solution. Dissolved solids go beside it. */
export const lyeComponent = (mass: number, strength: Strength, celsius: number): Component => {
  const { value, u, source } = lyeDensity(strength, celsius);
  return { mass, density: { value: value / 1000, u: u / 1000, source } };
};

/** Typical densities of what else goes in, g/cm³, each with a standard uncertainty: they are a small part of a batter. */
const OTHERS = {
  fragrance: [0.95, 0.05],
  sugar: [1.59, 0.02],
  salt: [2.16, 0.02],
  clay: [2.6, 0.1],
  oxide: [4, 1],
  'plant-powder': [1.4, 0.1],
  'milk-solids': [1.4, 0.1],
} as const;

export type OtherKind = keyof typeof OTHERS;

export const otherComponent = (mass: number, kind: OtherKind): Component => {
  const [value, u] = OTHERS[kind];
  return { mass, density: { value, u, source: { text: `typical of ${kind.replace('-', ' ')}`, grade: 'memory' } } };
};

/**
 * What the sum leaves out: air stirred in, volume lost or won as oil and lye become emulsion and soap. A judgement, as a fraction; 3 % of
 * air would outweigh all else, which is why the maker's own batches correct it.
 */
const UNMODELLED = 0.015;

/** Volume of a batter in cm³: each component's mass over its density, added up. Pot residue and pour loss are not in it. */
export const batterVolume = (components: readonly Component[]): Estimate => {
  let value = 0;
  let variance = 0;
  for (const { mass, density } of components) {
    const volume = amount(mass, 'the mass of a component') / above(density.value, 'a density');
    value += volume;
    variance += (volume * (density.u / density.value)) ** 2;
  }
  return {
    value,
    u: Math.hypot(Math.sqrt(variance), UNMODELLED * value),
    source: { text: 'sum of component volumes at pouring temperature', grade: 'computed' },
  };
};

/** g/cm³: 0.40 oz of fats to each cubic inch of a rectangular loaf. */
const LOAF_RULE = (0.4 * 28.349523125) / 16.387064;

/** Grams of fats the trade's rule puts into a rectangular mould of so many cm³. It fits lye of about 34 % only. */
export const loafRule = (volume: number): Sourced => ({
  value: amount(volume, 'a volume') * LOAF_RULE,
  source: { text: '0.40 oz of fats to the cubic inch of a rectangular loaf', grade: 'practice' },
});
