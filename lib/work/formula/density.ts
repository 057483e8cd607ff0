import { componentsOf, lyeComponents, waterOf } from '#lib/soap/batter';
import { waterDensity } from '#lib/soap/lye/density-model';
import { sumOf } from '#lib/units/sum';
import type { Component } from '#lib/soap/volume';
import type { Makeup } from './makeup';

const ROOM = 20;

/** g/ml of a material as it is poured at room temperature, for fluid measure. */
export const densityOf = (makeup: Makeup): number => {
  if (makeup.alkalis.length > 0) return volumeDensity([...componentsOf(makeup, ROOM), ...lyeComponents(makeup, ROOM)]);
  const water = waterOf(makeup);
  const density = { value: waterDensity(ROOM) / 1000, u: 0, source: { text: 'water', grade: 'B' as const } };
  return volumeDensity([...componentsOf(makeup, ROOM), ...(water > 0 ? [{ mass: water, density }] : [])]);
};

const volumeDensity = (components: readonly Component[]): number =>
  sumOf(components, ({ mass }) => mass) / sumOf(components, ({ mass, density }) => mass / density.value);
