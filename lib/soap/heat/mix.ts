import { above, amount } from '../check';

/** Something of one temperature that takes up heat: J/K and °C. */
export interface Warm {
  readonly capacity: number;
  readonly celsius: number;
}

/** The temperature of all of it together, °C, no heat lost and nothing melting. */
export const mixedCelsius = (parts: readonly Warm[]): number => {
  let [heat, capacity] = [0, 0];
  for (const part of parts) {
    capacity += amount(part.capacity, 'a heat capacity');
    heat += part.capacity * part.celsius;
  }
  return heat / above(capacity, 'the heat capacity of all of it');
};
