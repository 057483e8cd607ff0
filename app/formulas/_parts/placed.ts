import type { Formula, Part, PlanContext, Problem } from '#lib/work/formula/index';

const BY_CODE: Readonly<Record<string, Part>> = {
  'no-fat': 'fat',
  'no-alkali': 'alkali',
  'alkali-too-much': 'alkali',
  'no-liquid': 'liquid',
};
const BY_WHOLE: Readonly<Record<string, Part>> = { fats: 'fat', hydroxide: 'alkali', liquid: 'liquid' };

/** The part whose whole a problem is about, where it is about one. */
export const partOf = ({ path, code, params }: Problem): Part | undefined =>
  path === 'entries' ? (BY_CODE[code] ?? BY_WHOLE[String(params['part'])]) : undefined;

const FIELDS =
  /^(?:name|moulds|size(?:\.count|\.value)?|wishes\.superfat|wishes\.lye(?:\.\w+)?|temperatures\..*|limits\..*|references\[\d+\]\.ranges\[\d+\].*|(?:entries|moulds|blends|batterParts)\[\d+\].*)$/;

/** Whether a field of the sheet says it. What none says stands at the head of the sheet. */
export const isPlaced = (one: Problem, { entries }: Formula): boolean => {
  if (partOf(one) !== undefined || FIELDS.test(one.path)) return true;
  const [, list, id] = /^(materials|lots)\[([^\]]*)\]/.exec(one.path) ?? [];
  return entries.some(({ material, lot }) => (list === 'materials' ? material === id : list === 'lots' && lot === id));
};

/** What a problem at the head of the sheet is about, by name; `null` where it is about the formula itself. */
export const aboutDocument = ({ path, params }: Problem, { preparations, materials, moulds, lots }: PlanContext): string | null => {
  if (typeof params['chain'] === 'string') {
    const name = (id: string): string => preparations.find((one) => one.id === id)?.name ?? id;
    return params['chain'].split(' → ').map(name).join(' → ');
  }
  const [, list, id] = /^(preparations|materials|moulds|lots)\[([^\]]*)\]/.exec(path) ?? [];
  if (list === 'lots') return lots.find((one) => one.id === id)?.mark ?? null;
  const all: Readonly<Record<string, readonly { readonly id: string; readonly name: string }[]>> = { preparations, materials, moulds };
  return all[list ?? '']?.find((one) => one.id === id)?.name ?? null;
};
