import { isObject } from '#lib/record/journal';
import type { Json } from '#lib/record/journal';
import { standing } from './shelf';
import type { Noun, Shelf } from './shelf';

/** What a person wants to have in another workshop too, by id. */
export interface Carried {
  readonly formulas: readonly string[];
  readonly moulds: readonly string[];
  readonly cutters: readonly string[];
}

export const CARRY_NOTHING: Carried = { formulas: [], moulds: [], cutters: [] };

/** A document to be begun elsewhere. */
export interface CarriedDocument {
  readonly noun: Noun;
  readonly id: string;
  readonly document: Json;
}

/** What a formula may name and cannot do without. Lots are never among it: nobody received them there. */
const NAMED: readonly Noun[] = ['material', 'preparation', 'mould'];

/**
 * The chosen documents with what they name: moulds, materials and preparations of one's own, and the hours set for a formula's logs.
 * Nothing that happened goes along: no lot, no batch, no order; a file that lies with the old record is left there.
 */
export const carriedFrom = (shelf: Shelf, { formulas, moulds, cutters }: Carried): readonly CarriedDocument[] => {
  const found = new Map<string, CarriedDocument>();
  const take = (noun: Noun, id: string): void => {
    const kept = standing(shelf, noun).find((one) => one.id === id);
    const key = `${noun} ${id}`;
    if (kept === undefined || found.has(key)) return;
    const document = bare(kept.newest.document);
    found.set(key, { noun, id, document: isObject(document) && noun === 'formula' ? { ...document, version: 1 } : document });
    const said = textsIn(document);
    for (const of of NAMED) for (const one of standing(shelf, of)) if (said.has(one.id)) take(of, one.id);
  };
  for (const id of formulas) {
    take('formula', id);
    take('unmould', id);
  }
  for (const id of moulds) take('mould', id);
  for (const id of cutters) take('cutter', id);
  return [...found.values()];
};

/** Without its lots and files. */
const bare = (document: Json): Json => {
  if (Array.isArray(document)) return document.map(bare);
  if (!isObject(document)) return document;
  return Object.fromEntries(Object.entries(document).map(([key, value]) => [key, key === 'lot' || key === 'file' ? null : bare(value)]));
};

const textsIn = (value: Json): ReadonlySet<string> => {
  if (typeof value === 'string') return new Set([value]);
  const inside = Array.isArray(value) ? value : isObject(value) ? Object.values(value) : [];
  return new Set(inside.flatMap((one) => [...textsIn(one)]));
};
