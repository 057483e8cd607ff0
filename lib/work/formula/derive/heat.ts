import { mixingHeat } from '#lib/soap/lye/mixing-peak';
import type { Source } from '#lib/soap/source';
import type { Derivation } from '../derivation';
import { mixingOf } from '../figures';
import type { Planning } from '../warnings/index';
import { combined, computedFrom, derivation, fromSource, n, saidFrom } from './shown';

const SODA: Source = { text: 'heat of solution of NaOH at 25 °C, Felder & Rousseau B.11', grade: 'memory' };
const POTASH: Source = { text: 'heat of solution of KOH at 25 °C, Parker’s limit', grade: 'memory' };
const CAPACITY: Source = { text: 'Laliberté, Journal of Chemical & Engineering Data 54 (2009)', grade: 'B' };
const BASIS = 25;

/** How hot the lye can get; nothing where that is not known. */
export const heatDerivations = ({ model, whole, figures, facts }: Planning): readonly Derivation[] => {
  const { mixingPeak } = figures;
  const mixing = mixingOf(model, whole);
  if (mixingPeak === null || mixing === null) return [];
  const { soda, potash, released, byAcid, cold, solution, capacity, u } = mixingHeat(mixing, facts.room.celsius);
  const { naoh, koh, water, frozen = 0 } = mixing;
  return [
    derivation({
      id: 'mixing-peak',
      value: mixingPeak.value,
      unit: '°C',
      formula:
        'T = 25 °C + (heat set free − heat that warms what goes in to 25 °C) ÷ (lye × its heat capacity); no heat lost: an upper bound',
      filled: `25 + (${n(released)} − ${n(cold)}) J ÷ (${n(solution)} g × ${n(capacity, 4)} J/(g K)) = ${n(mixingPeak.value, 4)} °C`,
      inputs: [
        ...(naoh > 0 ? [computedFrom('pure NaOH', naoh, 'g'), fromSource('heat of solution of NaOH', soda, 'kJ/mol', SODA)] : []),
        ...(koh > 0 ? [computedFrom('pure KOH', koh, 'g'), fromSource('heat of solution of KOH', potash, 'kJ/mol', POTASH)] : []),
        ...(byAcid > 0 ? [computedFrom('heat of neutralising the acid', byAcid, 'J')] : []),
        computedFrom('water in the jug', water, 'g'),
        ...(frozen > 0 ? [computedFrom('of that as ice', frozen, 'g')] : []),
        fromSource('heat capacity of the lye', capacity, 'J/(g K)', CAPACITY),
        computedFrom('temperature of the tables', BASIS, '°C'),
        saidFrom('the room', facts.room.celsius, '°C', facts.room.said ? 'this workshop' : null, 'nobody said: 20 °C taken'),
      ],
      ...combined([
        { what: 'heat of solution', u: u.heat },
        { what: 'heat capacity', u: u.capacity },
      ]),
    }),
  ];
};
