import { oilsLowest } from './first';
import type { Against, Terms } from './types';

/** What stands against joining lye and oils of these temperatures, °C, what holds before what is advised. */
export const againstAt = (terms: Terms, lye: number, oils: number): readonly Against[] => [
  ...hold('lye-too-hot', lye > terms.high),
  ...hold('milk-too-hot', terms.milkLimit !== null && lye > terms.milkLimit),
  ...hold('lye-too-cold', lye < terms.low),
  ...hold('oils-too-hot', oils > terms.high),
  ...hold('oils-near-setting', oils < oilsLowest(terms)),
  ...(Math.abs(lye - oils) > terms.apart ? [{ reason: 'apart', level: terms.apartLevel } as const] : []),
];

const hold = (reason: Against['reason'], stands: boolean): readonly Against[] => (stands ? [{ reason, level: 'hold' }] : []);
