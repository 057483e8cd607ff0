import { describe, expect, it } from 'vitest';
import { readFile, writeFile } from '#lib/work/formula/index';
import type { FormulaFile, Material, Preparation } from '#lib/work/formula/index';
import { formula, WORKSHOP } from '#tests/support/formula';
import { problemText } from '../../../app/_ui/problem-messages';

type Content = Omit<FormulaFile, 'format' | 'version'>;
const EMPTY: Content = { formulas: [], materials: [], lots: [], preparations: [], moulds: [] };
const GROVE = { ...WORKSHOP.materials.find(({ id }) => id === 'olive'), id: 'grove', name: 'Grove oil', origin: 'maker' } as Material;
const whole = (id: string, material: string, lot: string | null = null): Preparation => ({
  id,
  name: id,
  parts: [{ material, lot, percent: '100' }],
  note: null,
});
const MADE = formula({ id: 'made', name: 'Slate' });
const LOT = { id: 'lot-grove', mark: 'GR 26-01', material: 'grove', certificate: null, files: [] };
const BLEND = { id: 'scent', name: 'Scent', amount: null, entries: [] };

/** What is said of a file, with the line of the file it stands beside. */
const said = (content: Content, there?: typeof WORKSHOP) => {
  const text = writeFile(content);
  const read = readFile(text, there);
  const problems = read.kind === 'problems' ? read.problems : [];
  return problems.map((one) => ({ one, line: text.split('\n')[Number(one.params['line']) - 1]?.trim() }));
};

describe('a file that could not be taken whole is refused before anything of it is', () => {
  const [entry] = MADE.entries;
  if (entry === undefined) throw new Error('no entry');
  it.each<readonly [string, Content, string, string]>([
    ['formulas', { ...EMPTY, formulas: [MADE, { ...MADE, name: 'Other' }] }, 'formulas[1].id', 'formula Other'],
    ['entries', { ...EMPTY, formulas: [{ ...MADE, entries: [entry, entry] }] }, 'formulas[0].entries[1].id', 'formula Slate'],
    ['blends', { ...EMPTY, formulas: [{ ...MADE, blends: [BLEND, BLEND] }] }, 'formulas[0].blends[1].id', 'formula Slate'],
    ['lots', { ...EMPTY, lots: [LOT, LOT] }, 'lots[1].id', 'lot GR 26-01'],
    [
      'a material and a preparation',
      { ...EMPTY, materials: [GROVE], preparations: [whole('grove', 'olive')] },
      'preparations[0].id',
      'preparation grove',
    ],
  ])('two %s of one id', (_name, content, path, of) => {
    const [first, ...more] = said(content);
    expect(first?.one).toMatchObject({ code: 'twice', path, params: { of } });
    expect(first?.line).toMatch(/^"id": /);
    expect(more).toEqual([]);
  });

  it.each(['../../x', 'a b', 'x'.repeat(61), 'é'])('an id the shelf has no place for: "%s"', (id) => {
    const [first] = said({ ...EMPTY, formulas: [{ ...MADE, id }] });
    expect(first?.one).toMatchObject({ code: 'wrong-shape', path: 'formulas[0].id', params: { of: 'formula Slate' } });
    expect(first?.line).toBe(`"id": "${id}",`);
    expect(first === undefined ? '' : problemText(first.one)).toBe(
      'In the formula Slate: An id has 1 to 60 letters without accents, digits, - or _.',
    );
    expect(said({ ...EMPTY, lots: [{ ...LOT, id }] })[0]?.one.path).toBe('lots[0].id');
  });

  it('a part of a preparation that is neither in the file nor here, by its name', () => {
    const content = { ...EMPTY, preparations: [whole('stock', 'only-there')] };
    const [first] = said(content, WORKSHOP);
    expect(first?.one).toMatchObject({ path: 'preparations[0].parts[0].material', params: { of: 'preparation stock' } });
    expect(first?.line).toBe('"material": "only-there",');
    expect(first === undefined ? '' : problemText(first.one)).toContain('“only-there” is neither in this file nor in the stores here');
    const lot = said({ ...EMPTY, preparations: [whole('stock', 'olive', 'lot-there')] }, WORKSHOP);
    expect(lot[0] === undefined ? '' : problemText(lot[0].one)).toContain('“lot-there” is neither');
  });

  it('what is here already, or further down in the file, is not missed', () => {
    const preparations = [whole('outer', 'inner'), whole('inner', 'grove', 'lot-grove')];
    expect(said({ ...EMPTY, preparations, materials: [GROVE], lots: [LOT] }, WORKSHOP)).toEqual([]);
    const there = { ...WORKSHOP, materials: [...WORKSHOP.materials, GROVE], lots: [...WORKSHOP.lots, LOT] };
    expect(said({ ...EMPTY, preparations }, there)).toEqual([]);
  });
});
