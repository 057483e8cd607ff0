/**
 * A formula, and the plan it becomes. Pure: documents and a context in, figures out; nothing is thrown at bad input, nothing guessed.
 *
 * - Documents (JSON of strings, whole numbers, booleans; fit for a sealed line): `Formula`, `Material`, `Preparation`, `Lot`, `Mould`.
 * - `planOf(formula, context)` → what the bench runs, with figures, sizing, warnings and derivations, or problems by code and path.
 * - `copyCard(formula, context)` → what a card as it stands on paper really gives.
 * - `readAmount(text, pours)` → an amount as written on a card.
 * - `checkMaterial`, `checkLot`, `checkMould`, `checkPreparation` → what is wrong with one document, beside its fields.
 * - `sharesToMasses`, `massesToShares`, `changeShare` → the same formula by the other measure; locks hold.
 * - `readFile(text)` / `writeFile(file)` → import and export, with schema.
 */
export type * from './answer';
export type * from './context';
export type * from './derivation';
export type { Fill, FilledMould } from './fill';
export type { Decimal, Figure, FigureGrade } from './figure';
export { decimal, numberOf, typed } from './figure';
export type * from './formula';
export type * from './lot';
export type * from './material';
export type * from './mould';
export type { Problem, ProblemCode } from './problem';
export type * from './warning';
export { CATALOGUE } from './catalogue/index';
export { materialsById, withCatalogue } from './catalogue/with';
export { newEntry } from './new-entry';
export { fillSchema } from './schema/fill';
export { formulaSchema } from './schema/formula';
export { lotSchema } from './schema/lot';
export { materialSchema, preparationSchema } from './schema/material';
export { mouldSchema } from './schema/mould';
export { copyCard, type CardAnswer } from './card';
export { changesBetween, type Change } from './changes';
export { calibrationFrom, checkFill } from './fill';
export { materialOfLot } from './effective';
export { fileJsonSchema, readFile, writeFile, type FileRead, type FormulaFile } from './file';
export { contentOf } from './file-content';
export { linesCsv } from './lines-csv';
export { planOnBench } from './on-bench';
export { planOf } from './plan-of';
export { readAmount, type AmountRead } from './read-amount';
export { changeShare, massesToShares, sharesToMasses, type Reworked } from './shares';
export { checkLot, checkMaterial, checkMould, checkPreparation, mouldVolume } from './checks';
