import type { PlanContext } from '../context';
import type { Material } from '../material';
import { CATALOGUE } from './index';

/** A workshop as a plan needs it, from one that holds the maker's own materials only. */
export const withCatalogue = (own: PlanContext): PlanContext => ({ ...own, materials: [...CATALOGUE, ...own.materials] });

/** Catalogue and the maker's own by id; of two with one id the maker's counts. */
export const materialsById = (own: readonly Material[]): ReadonlyMap<string, Material> =>
  new Map([...CATALOGUE, ...own].map((one) => [one.id, one]));
