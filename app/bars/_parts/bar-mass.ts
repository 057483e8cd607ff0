import type { Display } from '#lib/units/display';
import { figureNumber, massFigure } from '#lib/units/format';
import { NANOGRAMS_PER } from '#lib/units/mass';

/** How a bar's mass is told. A bar is light: to who reads pounds it is told in ounces, so that one head can name the unit. */
export interface BarMass {
  readonly display: Display;
  readonly unit: 'g' | 'oz';
  /** Grams as a number of that unit, for an axis. */
  readonly of: (grams: number) => number;
  /** Digits after the mark that ticks so far apart need. */
  readonly places: (apart: number) => number;
  /** Grams to a tenth, or as finely in ounces; without the unit. */
  readonly text: (grams: number) => string;
}

const GRAMS = { g: 1, oz: Number(NANOGRAMS_PER.oz) / Number(NANOGRAMS_PER.g) } as const;
const MG = 1000;

export const barMass = (chosen: Display): BarMass => {
  const unit = chosen.mass === 'g' ? 'g' : 'oz';
  const display = { ...chosen, mass: unit } as const;
  return {
    display,
    unit,
    of: (grams) => grams / GRAMS[unit],
    places: (apart) => Math.max(0, Math.ceil(-Math.log10(apart) - 1e-9)),
    text: (grams) => figureNumber(massFigure(grams * MG, display)),
  };
};
