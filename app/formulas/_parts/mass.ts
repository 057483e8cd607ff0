import type { Display } from '#lib/units/display';
import { massCell, plannedStep, statedToleranceStep } from '#lib/words/quantities';

/** A planned mass as the digits of a column whose head has the unit. */
export const plannedText = (milligrams: number, tolerance: number, display: Display): string =>
  massCell(milligrams, plannedStep(milligrams, tolerance, display), display, 0).text;

/** A tolerance as the digits of a column whose head has the unit. */
export const toleranceText = (milligrams: number, display: Display): string =>
  massCell(milligrams, statedToleranceStep(milligrams, display), display, 0).text;

/** A worked-out mass in grams, to a tenth. */
export const gramsText = (grams: number, display: Display): string => massCell(Math.round(1000 * grams), 100, display, 0).text;
