import type { Estimate } from '#lib/soap/source';
import { checkCertificate } from './certificate';
import type { PlanContext } from './context';
import { materialOfLot } from './effective';
import type { Lot } from './lot';
import { lookupOf } from './lookup';
import { makeupOf } from './makeup-of';
import type { Material, Preparation } from './material';
import { brimOf } from './mould-volume';
import type { Mould } from './mould';
import { problem, type Problem } from './problem';
import { createReader } from './reader';
import type { Warning } from './warning';

/** Paths without the prefix that tells documents apart: beside one document its own fields are enough. */
const own = (problems: readonly Problem[], prefix: string): readonly Problem[] =>
  problems.map((one) => (one.path.startsWith(prefix) ? { ...one, path: one.path.slice(prefix.length).replace(/^\./, '') } : one));

/** What is wrong with a material as typed. A purity or strength not yet said is no fault of the material: lots say it. */
export const checkMaterial = (material: Material): readonly Problem[] => {
  const reader = createReader();
  makeupOf(material, null, reader, 'it');
  return own(
    reader.problems.filter(({ code }) => code !== 'purity-missing' && code !== 'strength-missing'),
    'it',
  );
};

/** What is wrong with a lot, and what its certificate says against the catalogue. */
export const checkLot = (
  lot: Lot,
  materials: readonly Material[],
): { readonly problems: readonly Problem[]; readonly warnings: readonly Warning[] } => {
  const material = materials.findLast(({ id }) => id === lot.material);
  if (material === undefined) return { problems: [problem('unknown-material', 'material', { material: lot.material })], warnings: [] };
  const reader = createReader();
  const warnings = checkCertificate(material, lot, reader);
  if (reader.problems.length === 0) makeupOf(materialOfLot(material, lot), lot, reader, `lots[${lot.id}].certificate`);
  const said = reader.problems.filter(({ code }) => code !== 'purity-missing' && code !== 'strength-missing');
  return { problems: own(said, `lots[${lot.id}]`), warnings };
};

/** What is wrong with a preparation among the others: its shares, its parts, and whether it holds itself. */
export const checkPreparation = (preparation: Preparation, context: PlanContext): readonly Problem[] => {
  const reader = createReader();
  const preparations = [...context.preparations.filter(({ id }) => id !== preparation.id), preparation];
  lookupOf({ ...context, preparations }, reader).find(preparation.id, null, 'it');
  return own(reader.problems, `preparations[${preparation.id}]`);
};

export const checkMould = (mould: Mould): readonly Problem[] => {
  const reader = createReader();
  brimOf(mould, reader);
  return own(reader.problems, `moulds[${mould.id}]`);
};

/** cm³ to the brim, all cavities; `null` for a mould that `checkMould` finds fault with. */
export const mouldVolume = (mould: Mould): Estimate | null => brimOf(mould, createReader())?.volume ?? null;
