import { describe, expect, it } from 'vitest';
import fc from '#tests/support/property';
import {
  changed,
  draftOf,
  entryId,
  kept,
  redone,
  rested,
  undone,
  withEntry,
  withNewEntry,
  withoutEntry,
} from '../../../app/formulas/_parts/draft';
import type { Formula } from '#lib/work/formula/index';

const EMPTY: Formula = {
  id: 'a',
  name: '',
  version: 1,
  note: '',
  entries: [],
  blends: [],
  wishes: { superfat: null, lye: null },
  size: null,
  moulds: [],
  limits: { superfat: null, lye: null },
  temperatures: null,
  references: [],
};
const named = (name: string): Formula => ({ ...EMPTY, name });

describe('a formula being worked on', () => {
  it('goes back and forth through every change, whatever was changed', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.string({ minLength: 1 }), fc.constantFrom('name', 'note', 'size')), { maxLength: 40 }),
        (changes) => {
          const states = [draftOf(EMPTY, 0)];
          for (const [name, field] of changes) {
            const next = changed(states.at(-1) ?? draftOf(EMPTY, 0), named(`${states.length} ${name}`), field);
            states.push(next);
          }
          let at = states.at(-1) ?? draftOf(EMPTY, 0);
          const end = at.formula;
          const back: Formula[] = [];
          while (at.past.length > 0) {
            at = undone(at);
            back.push(at.formula);
          }
          expect(at.formula).toBe(EMPTY);
          expect(undone(at)).toBe(at);
          while (at.future.length > 0) at = redone(at);
          expect(at.formula).toBe(end);
        },
      ),
    );
  });

  it('takes typing on in one field as one step, and another field, or the same one later, as the next', () => {
    let draft = changed(draftOf(EMPTY, 0), named('O'), 'name');
    draft = changed(draft, named('Oa'), 'name');
    expect(undone(draft).formula.name).toBe('');
    const later = changed(rested(draft), named('Oak'), 'name');
    expect(undone(later).formula.name).toBe('Oa');
    const elsewhere = changed(draft, { ...draft.formula, note: 'x' }, 'note');
    expect(undone(elsewhere).formula.name).toBe('Oa');
  });

  it('forgets what was taken back once something else is typed', () => {
    const draft = undone(changed(draftOf(EMPTY, 0), named('Oak'), 'name'));
    expect(redone(changed(draft, named('Ash'), 'name')).formula.name).toBe('Ash');
  });

  it('can still go back after it was kept', () => {
    const draft = kept(changed(draftOf(EMPTY, 0), named('Oak'), 'name'), 4);
    expect(draft).toMatchObject({ base: 4, formula: { name: 'Oak', version: 4 } });
    expect(undone(draft).formula.name).toBe('');
  });

  it('puts a new entry at the end of its part, changes one, and takes one out of its blend too', () => {
    let formula = withNewEntry(withNewEntry(withNewEntry(EMPTY, 'fat', 'olive'), 'liquid', 'water'), 'fat', 'tallow');
    expect(formula.entries.map(({ id }) => id)).toEqual(['olive', 'tallow', 'water']);
    formula = withEntry(formula, 'tallow', { material: 'tallow', amount: { kind: 'share', of: 'fats', percent: '40' } });
    expect(formula.entries[1]).toMatchObject({ material: 'tallow', amount: { percent: '40' } });
    formula = { ...formula, blends: [{ id: 'b', name: 'b', amount: null, entries: ['olive', 'tallow'] }] };
    formula = withoutEntry(formula, 'olive');
    expect(formula.entries.map(({ id }) => id)).toEqual(['tallow', 'water']);
    expect(formula.blends[0]?.entries).toEqual(['tallow']);
    expect(entryId(formula, 'tallow')).toBe('tallow-2');
    expect(entryId(formula, 'olive')).toBe('olive');
  });
});
