import type { Display } from '#lib/units/display';
import { massCell, planStep } from '../../_ui/quantities';

/** A planned mass as the digits of a column whose head has the unit. */
export const plannedText = (milligrams: number, display: Display): string => massCell(milligrams, planStep(milligrams), display, 0).text;

/** A worked-out mass in grams, to a tenth. */
export const gramsText = (grams: number, display: Display): string => massCell(Math.round(1000 * grams), 100, display, 0).text;
