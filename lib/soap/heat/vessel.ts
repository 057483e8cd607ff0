import type { Estimate, Source } from '../source';

export type HeatMaterial = 'stainless' | 'plastic-pp' | 'plastic-hdpe' | 'glass' | 'ceramic' | 'silicone';

const memory = (text: string): Source => ({ text, grade: 'memory' });

/** Specific heats of what vessels are made of, J/(g K) near room temperature. */
const SPECIFIC: Readonly<Record<HeatMaterial, Estimate>> = {
  stainless: { value: 0.5, u: 0.02, source: memory('handbooks, austenitic stainless steel') },
  'plastic-pp': { value: 1.9, u: 0.15, source: memory('handbooks, polypropylene') },
  'plastic-hdpe': { value: 2.1, u: 0.2, source: memory('handbooks, polyethylene of high density') },
  glass: {
    value: 0.84,
    u: 0.04,
    source: { text: 'table of properties of solids, borosilicate glass 0.84, window glass 0.80', grade: 'C' },
  },
  ceramic: { value: 0.9, u: 0.15, source: memory('handbooks, stoneware and porcelain') },
  silicone: { value: 1.3, u: 0.2, source: memory('handbooks, silicone rubber') },
};

/** Specific heat of a vessel's material, J/(g K); `null` where nothing is said of it or lye eats it. */
export const vesselHeat = (material: string): Estimate | null =>
  Object.hasOwn(SPECIFIC, material) ? SPECIFIC[material as HeatMaterial] : null;
