/**
 * Net content of bars against their label, in grams.
 *
 * - `checkScale(scale, nominal)` first: may this scale check such bars at all?
 * - `checkByAverage(sample)` EU and UK, `checkByHandbook(sample)` NIST Handbook 133: steps with open arithmetic, and a verdict.
 * - `labelItCarries(question)` what this lot could say instead.
 *
 * Local rules decide which of them counts.
 */
export { checkByAverage, type AverageCheck, type AverageStep } from './average';
export { checkByHandbook, type HandbookCheck, type HandbookStep } from './handbook';
export { checkScale, checkScaleByHandbook, type CheckingScale, type ScaleCheck } from './scale';
export { labelItCarries, type Carries } from './carries';
export { tolerableError, LEAST_NOMINAL, MOST_NOMINAL } from './tolerable';
export type { NetSample } from './sample';
