import { waterWithAcid } from '#lib/soap/acid';
import { waterDensity } from '#lib/soap/lye/density-model';
import { lyeComponent, fatDensity, otherComponent, type Component } from '#lib/soap/volume';
import { pureMass, waterWith } from '#lib/soap/alkali';
import { sumOf } from '#lib/soap/sum';
import type { Makeup } from './makeup';

const ROOM = 20;

/** Everything but lye: fats at a temperature, what takes no part, acids as salts. */
export const componentsOf = ({ fats, inert, acids }: Makeup, celsius: number): readonly Component[] => [
  ...fats.map(({ mass, density }) => ({ mass, density: fatDensity(density, celsius) })),
  ...inert.map(({ mass, density }) => ({ mass, density })),
  ...acids.map((acid) => otherComponent(acid.mass - waterWithAcid(acid), 'sugar')),
];

/** Water of it all: what stands alone, and what alkali and acid bring. */
export const waterOf = ({ water, alkalis, acids }: Makeup): number => water + sumOf(alkalis, waterWith) + sumOf(acids, waterWithAcid);

/** Hydroxide and water as one solution at a temperature; empty without either. @throws RangeError outside the tables */
export const lyeComponents = (makeup: Makeup, celsius: number): readonly Component[] => {
  const pure = (kind: 'NaOH' | 'KOH'): number => sumOf(makeup.alkalis, (a) => (a.kind === kind ? pureMass(a) : 0));
  const [naoh, koh] = [pure('NaOH'), pure('KOH')];
  const solution = naoh + koh + waterOf(makeup);
  // What is in the hydroxide beside it and water is mostly its carbonate.
  const impurity = sumOf(makeup.alkalis, (a) => a.mass - pureMass(a) - waterWith(a));
  return [
    ...(solution > 0 ? [lyeComponent(solution, { naoh: naoh / solution, koh: koh / solution }, celsius)] : []),
    ...(impurity > 0 ? [otherComponent(impurity, 'salt')] : []),
  ];
};

/** g/ml of a material as it is poured at room temperature, for fluid measure. */
export const densityOf = (makeup: Makeup): number => {
  if (makeup.alkalis.length > 0) return volumeDensity([...componentsOf(makeup, ROOM), ...lyeComponents(makeup, ROOM)]);
  const water = waterOf(makeup);
  const density = { value: waterDensity(ROOM) / 1000, u: 0, source: { text: 'water', grade: 'B' as const } };
  return volumeDensity([...componentsOf(makeup, ROOM), ...(water > 0 ? [{ mass: water, density }] : [])]);
};

const volumeDensity = (components: readonly Component[]): number =>
  sumOf(components, ({ mass }) => mass) / sumOf(components, ({ mass, density }) => mass / density.value);
