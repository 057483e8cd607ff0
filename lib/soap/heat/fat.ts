import { within } from '../check';
import type { Estimate, Source } from '../source';

const CHOI_OKOS: Source = {
  text: 'Choi & Okos (1986), fat, −40 to 150 °C, as reproduced in Singh & Heldman, Introduction to Food Engineering',
  grade: 'B',
};

/** Fats of one kind and another differ by this share: 1.67 to 2.24 J/(g K) are measured at 35 °C (Fasina & Colley 2008, as reproduced). */
const DIFFER = 0.08;

/** Specific heat of melted fat, J/(g K). What a fat gives off as it sets is not in it. @throws RangeError outside 0–150 °C */
export const fatHeatCapacity = (celsius: number): Estimate => {
  const t = within(celsius, 0, 150, 'the heat capacity of fat, in °C,');
  const value = 1.9842 + 1.4733e-3 * t - 4.8008e-6 * t * t;
  return { value, u: DIFFER * value, source: CHOI_OKOS };
};
