import type { Material } from '../material';
import { FAT_MATERIALS } from './fats';
import { ACID_MATERIALS, ADDITIVE_MATERIALS, ALKALI_MATERIALS, COLOURANT_MATERIALS, FRAGRANCE_MATERIALS, LIQUID_MATERIALS } from './rest';

/** Everything we know by name. A maker's own materials stand beside it; of two with one id the maker's counts. */
export const CATALOGUE: readonly Material[] = [
  ...FAT_MATERIALS,
  ...ALKALI_MATERIALS,
  ...LIQUID_MATERIALS,
  ...ACID_MATERIALS,
  ...ADDITIVE_MATERIALS,
  ...FRAGRANCE_MATERIALS,
  ...COLOURANT_MATERIALS,
];
