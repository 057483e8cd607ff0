import type { Source, Sourced } from '#lib/soap/source';
import type { IngredientList } from './ingredients';
import type { LabelSettings } from './settings';

/** What a label has, as far as a checklist asks. */
export interface LabelFacts {
  readonly settings: LabelSettings;
  readonly list: IngredientList;
  /** Of some fragrance nobody has typed what allergens it brings, so that the list may lack them. */
  readonly silent: boolean;
  /** Batch mark. */
  readonly mark: string;
  /** Net content is known. */
  readonly net: boolean;
  /** Grams; for what is so small that the content need not be stated. */
  readonly netGrams: number | null;
}

export type AskedOf =
  | 'responsible'
  | 'origin'
  | 'content'
  | 'durability'
  | 'precautions'
  | 'batch'
  | 'function'
  | 'ingredients'
  | 'soap-exemption'
  | 'identity'
  | 'business'
  | 'contact'
  | 'net-quantity'
  | 'us-ingredients';

export interface Asked {
  readonly what: AskedOf;
  /** `there`; `missing`; `look`: a person must decide whether it applies; `not-asked`: it does not apply here. */
  readonly state: 'there' | 'missing' | 'look' | 'not-asked';
  readonly source: Source;
}

const durabilityState = ({ durability }: LabelSettings): Asked['state'] => {
  switch (durability.kind) {
    case 'none':
      return 'missing';
    // Whether it keeps so long is the maker's to know.
    case 'opened':
      return 'look';
    case 'best-before':
      break;
  }
  return 'there';
};

const EU = (letter: string): Source => ({ text: `Regulation (EC) No 1223/2009 Art. 19(1)(${letter})`, grade: 'A' });
const CFR = (section: string, grade: Source['grade']): Source => ({ text: `21 CFR ${section}`, grade });
/** Quoted alike by several; its own text was not seen. */
const HARM: Source = { text: '21 U.S.C. 364e(a), as quoted by others', grade: 'C' };
/** What FDA told the Office of Management and Budget of part 701. */
const ICR = 'FDA on 21 CFR 701, ICR 201104-0910-004';
const filled = (text: string | null): boolean => text !== null && text.trim() !== '';
const when = (there: boolean): 'there' | 'missing' => (there ? 'there' : 'missing');

/** What keeps longer than so many months bears the period after opening instead of a date (Art. 19(1)(c)). */
export const OPENED_INSTEAD: Sourced = {
  value: 30,
  source: { text: 'Regulation (EC) No 1223/2009 Art. 19(1)(c), as told by BVL (Germany) and HPRA (Ireland)', grade: 'A' },
};

/** Packages below so many grams need no content (Art. 19(1)(b)). */
const SMALL = 5;

const ingredientsState = ({ list: { items, unnamed }, silent }: LabelFacts): Asked['state'] =>
  items.length === 0 || unnamed.length > 0 ? 'missing' : silent ? 'look' : 'there';

/** What Art. 19 of the EU's (and, alike, the UK's) cosmetics regulation asks of this label. */
export const euChecklist = (facts: LabelFacts): readonly Asked[] => {
  const { settings, mark, net, netGrams } = facts;
  const { responsible, origin, cautions, purpose } = settings;
  return [
    { what: 'responsible', state: when(filled(responsible.name) && filled(responsible.address)), source: EU('a') },
    { what: 'origin', state: filled(origin) ? 'there' : 'look', source: EU('a') },
    { what: 'content', state: netGrams !== null && netGrams < SMALL ? 'not-asked' : when(net), source: EU('b') },
    { what: 'durability', state: durabilityState(settings), source: EU('c') },
    { what: 'precautions', state: cautions.some(filled) ? 'there' : 'look', source: EU('d') },
    { what: 'batch', state: when(filled(mark)), source: EU('e') },
    { what: 'function', state: filled(purpose) ? 'there' : 'look', source: EU('f') },
    { what: 'ingredients', state: ingredientsState(facts), source: EU('g') },
  ];
};

/**
 * What 21 CFR 701 asks. Soap in the sense of 701.20 (most of what is not volatile is alkali salts of fatty acids, it cleans by them, and it
 * is labelled, sold and represented as soap only) is no cosmetic, and the list of ingredients is then not asked for. One claim beyond
 * cleaning ends the exemption.
 */
export const usChecklist = (facts: LabelFacts): readonly Asked[] => {
  const { settings, net } = facts;
  const { responsible, onlySoap, purpose } = settings;
  return [
    { what: 'soap-exemption', state: onlySoap === null ? 'look' : onlySoap ? 'there' : 'not-asked', source: CFR('701.20(a)', 'A') },
    { what: 'identity', state: filled(purpose) ? 'there' : 'look', source: CFR(`701.11; ${ICR}`, 'B') },
    {
      what: 'business',
      state: when(filled(responsible.name) && filled(responsible.address)),
      source: CFR('701.12; 21 U.S.C. 362(b)(1)', 'B'),
    },
    { what: 'contact', state: onlySoap === true ? 'not-asked' : 'look', source: HARM },
    { what: 'net-quantity', state: when(net), source: CFR('701.13; 701.20(b)', 'A') },
    { what: 'us-ingredients', state: onlySoap === true ? 'not-asked' : ingredientsState(facts), source: CFR('701.3', 'A') },
  ];
};
