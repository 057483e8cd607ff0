import type { Display } from '#lib/units/display';
import { massCell, planStep } from '#lib/words/quantities';

/** So many steps keep a rounded target well inside its tolerance: the last digit is at most half of it, the rounding a quarter. */
const INSIDE = 6;

/** How finely a target is shown, mg: as its scale shows grams, and in ounces, which may be coarser than that, well inside its tolerance. */
export const targetStep = (tolerance: number, step: number, display: Display): number =>
  display.mass === 'g' ? step : Math.min(step, Math.max(1, tolerance / INSIDE));

/** A planned mass as the digits of a column whose head has the unit. */
export const plannedText = (milligrams: number, tolerance: number, display: Display): string =>
  massCell(milligrams, targetStep(tolerance, planStep(milligrams), display), display, 0).text;

/** So many steps tell a tolerance from another, where the unit is much larger than the scale's own. */
const TELLS = 20;

/** How finely a tolerance is shown, mg: as its scale shows grams, and in ounces so that it is never read as none. */
export const toleranceStep = (milligrams: number, step: number, display: Display): number =>
  display.mass === 'g' ? step : Math.min(step, Math.max(1, milligrams / TELLS));

/** A tolerance as the digits of a column whose head has the unit. */
export const toleranceText = (milligrams: number, display: Display): string =>
  massCell(milligrams, toleranceStep(milligrams, planStep(milligrams), display), display, 0).text;

/** A worked-out mass in grams, to a tenth. */
export const gramsText = (grams: number, display: Display): string => massCell(Math.round(1000 * grams), 100, display, 0).text;
