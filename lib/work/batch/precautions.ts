import type { Gate } from './entries';

/**
 * What a person confirms at each gate, as codes; words are the screen's. Hydroxide: SDS sections 7 and 8 of sodium hydroxide
 * and H314 (CLP 011-002-00-6); that nobody else is near and the material is checked against its lot are common practice, no source.
 * Cold liquid: alkali into cold liquid, slowly, never the reverse (CCOHS, sodium hydroxide).
 */
export const PRECAUTIONS: Readonly<Record<Gate, readonly string[]>> = {
  hydroxide: ['goggles', 'face-shield', 'gloves', 'ventilation', 'running-water', 'nobody-near', 'material'],
  'cold-liquid': ['liquid-cold', 'into-liquid', 'slowly'],
};
