import type { Display } from '#lib/units/display';
import { differenceText, figureText, massFigure, massText, shareText, temperatureText } from '#lib/units/format';
import type { Figure, Sign } from '#lib/units/format';
import { massOfText } from '#lib/units/mass-text';
import type { MassUnit } from '#lib/units/mass';

/** How running text on paper writes a quantity: in the person's units and marks. `step`: what the scale's last digit is worth, mg. */
export interface Show {
  readonly mass: (milligrams: number, step?: number | null, sign?: Sign) => string;
  readonly tolerance: (milligrams: number) => string;
  readonly temperature: (milliCelsius: number) => string;
  readonly difference: (milliKelvin: number) => string;
  readonly share: (millionths: number) => string;
}

export const showIn = (display: Display): Show => ({
  mass: (milligrams, step = null, sign = 'minus') => massText(milligrams, display, step, sign),
  tolerance: (milligrams) => massText(milligrams, display, statedToleranceStep(milligrams, display)),
  temperature: (milliCelsius) => temperatureText(milliCelsius, display),
  difference: (milliKelvin) => differenceText(milliKelvin, display),
  share: (millionths) => shareText(millionths, display),
});

/** The head of a column of masses. Pounds and ounces stand in the cells: they are two units. */
export const massHead = (display: Display): string => (display.mass === 'lb' ? '' : display.mass);

/** A mass as one cell of a column: its digits, and the unseen ones that keep the decimals of the column under each other. */
export interface Cell {
  readonly text: string;
  readonly pad: string;
}

export const massCell = (milligrams: number, step: number | null, display: Display, places: number, sign: Sign = 'minus'): Cell => {
  const figure = massFigure(milligrams, display, step, sign);
  if (display.mass === 'lb') return { text: figureText(figure), pad: '' };
  return cellOf(figure, places);
};

/** `places`: decimals of the column. */
const cellOf = ({ sign, whole, mark, fraction }: Figure, places: number): Cell => {
  const missing = Math.max(0, places - fraction.length);
  return { text: `${sign}${whole}${mark}${fraction}`, pad: missing === 0 ? '' : `${fraction === '' ? '.' : ''}${'0'.repeat(missing)}` };
};

/** Decimals that a column with these steps needs. */
export const placesOf = (steps: readonly (number | null)[], display: Display): number =>
  display.mass === 'lb' ? 0 : Math.max(0, ...steps.map((step) => massFigure(0, display, step).fraction.length));

/** The coarsest of a tenth, a hundredth and a thousandth of a gram in which a plan's figure is whole: nothing is rounded away. */
export const planStep = (milligrams: number): number => (milligrams % 100 === 0 ? 100 : milligrams % 10 === 0 ? 10 : 1);

/** As it was stated, but no finer than the coarsest decimal step of a gram that is `enough`, mg. */
const noFiner = (milligrams: number, enough: number): number =>
  Math.max(planStep(milligrams), [100, 10].find((step) => step <= enough) ?? 1);

/** So many steps keep a rounded target well inside its tolerance: the last digit is at most half of it, the rounding a quarter. */
const INSIDE = 6;

/** How finely a target, or what was weighed to it, is shown, mg: as its scale shows grams, and in ounces, which may be coarser than that, well inside its tolerance. */
export const targetStep = (tolerance: number, step: number, display: Display): number =>
  display.mass === 'g' ? step : Math.min(step, Math.max(1, tolerance / INSIDE));

/** So many steps of a plan's grams lie in its tolerance at the least: a rounded target is off by an eighth of it at the most. */
const LIE_IN = 4;

/** How finely what a plan asks for is shown, mg: no finer than anybody can pour to it. The bench aims at the milligrams all the same. */
export const plannedStep = (target: number, tolerance: number, display: Display): number =>
  targetStep(tolerance, noFiner(target, tolerance / LIE_IN), display);

/** So many steps tell a tolerance from another, where the unit is much larger than the scale's own. */
const TELLS = 20;

/** How finely a tolerance is shown, mg: as its scale shows grams, and in ounces so that it is never read as none. */
export const toleranceStep = (milligrams: number, step: number, display: Display): number =>
  display.mass === 'g' ? step : Math.min(step, Math.max(1, milligrams / TELLS));

/** How finely a tolerance is shown where no scale is asked, mg: as it was stated, and one that was worked out no finer than tells it from another. */
export const statedToleranceStep = (milligrams: number, display: Display): number =>
  toleranceStep(milligrams, noFiner(milligrams, milligrams / TELLS), display);

/** What the last digit of a stated weight is worth, mg; `null` when the text is none. */
export const stepOf = (stated: { readonly text: string; readonly unit: MassUnit } | null): number | null =>
  stated === null ? null : (massOfText(stated.text, stated.unit)?.step ?? null);
