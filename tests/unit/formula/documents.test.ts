import { describe, expect, it } from 'vitest';
import { canonical } from '#lib/record/canonical';
import { SAMPLE_FORMULAS } from '#lib/work/formula/sample/formulas';
import {
  changesBetween,
  changeShare,
  contentOf,
  fileJsonSchema,
  linesCsv,
  massesToShares,
  mouldVolume,
  readFile,
  sharesToMasses,
  writeFile,
} from '#lib/work/formula/index';
import type { Formula, Material, Reworked } from '#lib/work/formula/index';
import {
  COCONUT,
  entry,
  formula,
  grams,
  mass,
  OLIVE,
  planned,
  REST,
  share,
  SODA,
  WATER,
  withEntry,
  WORKSHOP,
} from '#tests/support/formula';
import { problemText } from '../../../app/_ui/problem-messages';

const IN_SHARES: Formula = formula({
  entries: [
    { ...COCONUT, amount: share('30') },
    { ...OLIVE, amount: share('60') },
    entry('castor', 'fat', 'castor', share('10')),
    entry('clay', 'extra', 'kaolin', share('1.2')),
    WATER,
    SODA,
  ],
  size: { kind: 'fats', value: '1250', unit: 'g' },
});
const reworked = (one: Reworked): Formula => {
  if (one.kind === 'problems') throw new Error(JSON.stringify(one.problems));
  return one.formula;
};
const percents = (one: Reworked): readonly (string | undefined)[] =>
  reworked(one)
    .entries.filter(({ part }) => part === 'fat')
    .map(({ amount }) => (amount?.kind === 'share' ? amount.percent : undefined));

describe('shares and masses', () => {
  it('turn into one another and back without moving a line', () => {
    const masses = reworked(sharesToMasses(IN_SHARES, WORKSHOP));
    expect(masses.entries[0]?.amount).toEqual(mass('375'));
    expect(masses.size).toBeNull();
    const back = reworked(massesToShares(masses, WORKSHOP));
    expect(back.entries[0]?.amount).toEqual(share('30'));
    for (const id of ['coconut', 'olive', 'castor', 'clay', 'soda', 'water']) {
      expect(grams(planned(masses), id)).toBeCloseTo(grams(planned(IN_SHARES), id), 9);
      expect(grams(planned(back), id)).toBeCloseTo(grams(planned(IN_SHARES), id), 9);
    }
  });

  it('a share changed: the others make room in proportion', () => {
    expect(percents(changeShare(IN_SHARES, 'castor', '19'))).toEqual(['27', '54', '19']);
  });

  it('a locked share stays, and too many locks are said', () => {
    const locked = { ...IN_SHARES, entries: withEntry('olive', { lock: 'share' }, IN_SHARES.entries) };
    expect(percents(changeShare(locked, 'castor', '19'))).toEqual(['21', '60', '19']);
    expect(changeShare(locked, 'castor', '45')).toMatchObject({ kind: 'problems', problems: [{ code: 'locks-clash' }] });
    expect(changeShare(locked, 'castor', 'x')).toMatchObject({ kind: 'problems', problems: [{ code: 'not-a-number' }] });
  });

  it.each(['ten', '', '0', '-5'])('what cannot be shared out stays as typed: "%s"', (typed) => {
    const unread = { ...IN_SHARES, entries: [...IN_SHARES.entries, entry('shea', 'fat', 'shea', share(typed))] };
    expect(percents(changeShare(unread, 'olive', '50'))).toEqual(['37.5', '50', '12.5', typed]);
    const locked = { ...unread, entries: withEntry('shea', { lock: 'share' }, unread.entries) };
    expect(percents(changeShare(locked, 'olive', '50'))).toEqual(['37.5', '50', '12.5', typed]);
  });

  it('is refused where nothing would be left of the others, and a hair less than that is not', () => {
    expect(changeShare(IN_SHARES, 'olive', '100')).toMatchObject({
      kind: 'problems',
      problems: [{ code: 'shares-sum', params: { sum: 140 } }],
    });
    expect(percents(changeShare(IN_SHARES, 'olive', '99.6'))).toEqual(['0.3', '99.6', '0.1']);
  });

  it('what is left takes the difference by itself', () => {
    const rest = { ...IN_SHARES, entries: withEntry('olive', { amount: REST }, IN_SHARES.entries) };
    expect(percents(changeShare(rest, 'castor', '19'))).toEqual(['30', undefined, '19']);
  });
});

describe('what changed between two versions', () => {
  it('names each field, entries by their id', () => {
    const next: Formula = {
      ...IN_SHARES,
      version: 2,
      name: 'Plainer',
      entries: [
        ...withEntry('olive', { amount: share('55') }, IN_SHARES.entries).filter(({ id }) => id !== 'clay'),
        entry('shea', 'fat', 'shea', share('5')),
      ].toReversed(),
      wishes: { ...IN_SHARES.wishes, superfat: '6' },
    };
    expect(changesBetween(IN_SHARES, next).map(({ path }) => path)).toEqual([
      'name',
      'wishes.superfat',
      'entries[clay]',
      'entries[shea]',
      'entries[olive].amount',
    ]);
    expect(changesBetween(IN_SHARES, IN_SHARES)).toEqual([]);
  });
});

/** A preparation that is wholly one thing. */
const hold = (id: string, of: string, lot: string | null) => ({
  id,
  name: id,
  parts: [{ material: of, lot, percent: '100' }],
  note: null,
});

describe('import and export', () => {
  const { materials, preparations, lots, moulds } = WORKSHOP;
  const text = writeFile({ formulas: SAMPLE_FORMULAS, materials, preparations, lots, moulds });

  it('comes back as it went, and every document fits a sealed line', () => {
    const read = readFile(text);
    expect(read).toEqual({
      kind: 'file',
      file: { format: 'potwatch-formulas', version: 1, formulas: SAMPLE_FORMULAS, materials, preparations, lots, moulds },
    });
    if (read.kind === 'file') expect(() => canonical(read.file as never)).not.toThrow();
    expect(readFile(`\uFEFF${text}`).kind).toBe('file');
  });

  it('takes a masterbatch of masterbatches along with every part and lot, so that another workshop can plan it', () => {
    const own = { ...WORKSHOP.materials.find(({ id }) => id === 'olive'), id: 'grove', name: 'Grove oil', origin: 'maker' } as Material;
    const lot = { id: 'lot-grove', mark: 'GR 26-01', material: 'grove', certificate: null, files: [] };
    const at = {
      ...WORKSHOP,
      materials: [...materials, own],
      preparations: [...preparations, hold('inner', 'grove', 'lot-grove'), hold('outer', 'inner', null)],
      lots: [...lots, lot],
    };
    const made = formula({ entries: withEntry('olive', { material: 'outer' }), moulds: [{ mould: 'leaf', count: 1, fill: '90' }] });
    const content = contentOf([made], at);
    expect(content.preparations.map(({ id }) => id)).toEqual(['inner', 'outer']);
    expect(content.lots).toContainEqual(lot);
    expect(content.moulds.map(({ id }) => id)).toEqual(['leaf']);
    expect(content.materials.some(({ id }) => id === 'shea')).toBe(false);
    const elsewhere = { ...at, ...content, materials: [...materials, ...content.materials], moulds: content.moulds };
    expect(planned(made, elsewhere).total).toBe(planned(made, at).total);
    const circle = { ...at, preparations: [hold('inner', 'outer', null), hold('outer', 'inner', null)] };
    expect(contentOf([made], circle).preparations.map(({ id }) => id)).toEqual(['inner', 'outer']);
  });

  it('a wrong field: its path, its line, its column, and nothing taken', () => {
    const wrong = text.replace('"lock": null', '"lock": "perhaps"');
    const line = wrong.split('\n').findIndex((one) => one.includes('perhaps')) + 1;
    const read = readFile(wrong);
    expect(read).toMatchObject({
      kind: 'problems',
      problems: [{ code: 'wrong-shape', path: 'formulas[0].entries[0].lock', params: { line } }],
    });
  });

  it.each([
    ['cut short', text.slice(0, 500)],
    ['a trailing comma', '{"format": "potwatch-formulas",}'],
    ['two values', '{} {}'],
    ['a raw line break in a string', '{"a": "b\nc"}'],
    ['nothing', ''],
    ['no JSON', 'oil, 300'],
    ['brackets without end', '['.repeat(100_000)],
  ])('%s is no JSON, and the place is told', (_name, broken) => {
    const read = readFile(broken);
    expect(read).toMatchObject({ kind: 'problems', problems: [{ code: 'not-json' }] });
    expect(read.kind === 'problems' ? read.problems[0]?.params['line'] : 0).toBeGreaterThan(0);
  });

  it('tells the line a bracket is missing on', () => {
    expect(readFile('{\n  "format": "potwatch-formulas",\n  "version" 1\n}')).toMatchObject({
      problems: [{ code: 'not-json', params: { line: 3, column: 13 } }],
    });
  });

  it.each(['[]', '{}', '"x"', '{"format": "other", "version": 1}'])('%s is of another kind', (other) => {
    expect(readFile(other)).toMatchObject({ kind: 'problems', problems: [{ code: 'other-format' }] });
  });

  it('a file of a later version is told so, with both numbers', () => {
    const said = readFile('{"format": "potwatch-formulas",\n "version": 2}');
    expect(said).toMatchObject({
      kind: 'problems',
      problems: [{ code: 'other-version', path: 'version', params: { version: 2, line: 2 } }],
    });
    const [one] = said.kind === 'problems' ? said.problems : [];
    expect(one === undefined ? '' : problemText(one)).toMatch(/version 2; version 1/);
  });

  it('says what belongs in a field in words, and whose field it is', () => {
    const [first] = SAMPLE_FORMULAS;
    const wrong = text.replace('"lock": null', '"lock": 5');
    const said = readFile(wrong);
    const [one] = said.kind === 'problems' ? said.problems : [];
    expect(one?.params).toMatchObject({ of: `formula ${first?.name}`, words: 'One of these belongs here: share, mass.' });
    expect(one === undefined ? '' : problemText(one)).not.toMatch(/invalid|undefined|_/i);
  });

  it('what no plan can be computed from is said at its line of the file, and nothing is taken', () => {
    const content = { formulas: [], materials: [], lots: [], preparations: [], moulds: [] };
    const grove = { ...WORKSHOP.materials.find(({ id }) => id === 'olive'), id: 'grove', name: 'Grove oil', origin: 'maker' };
    const sv = { value: '0', unit: 'mg KOH/g', source: 'typed', grade: 'typed' };
    const flat = { id: 'flat', name: 'Flat', shape: { kind: 'box', length: '0', width: '10', depth: '-5' }, lengthU: null } as const;
    const short = { ...hold('short', 'olive', null), parts: [{ material: 'olive', lot: null, percent: '90' }] };
    const cases = [
      [{ ...content, materials: [{ ...grove, sv } as Material] }, 'not-above-zero', 'materials[0].sv', '"sv"', 'material Grove oil'],
      [{ ...content, moulds: [flat] }, 'not-above-zero', 'moulds[0].shape.length', '"length"', 'mould Flat'],
      [{ ...content, preparations: [short] }, 'shares-sum', 'preparations[0].parts', '"parts"', 'preparation short'],
      [{ ...content, preparations: [hold('a', 'b', null), hold('b', 'a', null)] }, 'cycle', 'preparations[0]', '{', 'preparation a'],
    ] as const;
    for (const [bad, code, path, at, of] of cases) {
      const file = writeFile(bad);
      const said = readFile(file);
      const [one] = said.kind === 'problems' ? said.problems : [];
      expect(one).toMatchObject({ code, path, params: { of } });
      const line = Number(one?.params['line']);
      expect(file.split('\n')[line - 1]).toContain(at);
    }
    // What only the other workshop has is not missed here.
    expect(readFile(writeFile({ ...content, preparations: [hold('c', 'only-there', 'lot-there')] })).kind).toBe('file');
  });

  it('has a JSON Schema that names its parts', () => {
    expect(fileJsonSchema()).toMatchObject({
      type: 'object',
      required: expect.arrayContaining(['formulas', 'materials', 'moulds']) as unknown,
    });
  });

  it('lines as CSV: one row a line, their sum last, no cell a spreadsheet would run', () => {
    const plan = planned(formula());
    const rows = linesCsv(plan).trimEnd().split('\r\n');
    expect(rows.length).toBe(plan.plan.lines.length + 2);
    expect(rows.at(-1)?.split(',')[5]).toBe(String(plan.total / 1000));
    const evil = {
      ...plan,
      plan: {
        ...plan.plan,
        lines: plan.plan.lines.map((line) => ({ ...line, material: { ...line.material, name: '=HYPERLINK("x"), oil' } })),
      },
    };
    expect(linesCsv(evil).split('\r\n')[1]).toContain(`"'=HYPERLINK(""x""), oil"`);
  });
});

const of = (shape: Parameters<typeof mouldVolume>[0]['shape']) => mouldVolume({ id: 'm', name: 'm', shape, lengthU: '0.5' });

describe('moulds', () => {
  it('box, cylinder, tray and water fill to the brim', () => {
    expect(of({ kind: 'box', length: '250', width: '64', depth: '95' })?.value).toBeCloseTo(1520, 9);
    expect(of({ kind: 'cylinder', diameter: '70', length: '28' })?.value).toBeCloseTo((Math.PI * 35 * 35 * 28) / 1000, 9);
    expect(of({ kind: 'tray', cavities: 6, cavity: { kind: 'box', length: '80', width: '50', depth: '25' } })?.value).toBeCloseTo(600, 9);
    // 612 g of water at 19 °C, 998.40 kg/m³ (CRC Handbook, from memory).
    expect(of({ kind: 'water-fill', water: '612', unit: 'g', celsius: '19', cavities: 6 })?.value).toBeCloseTo(612 / 0.9984, 1);
    expect(of({ kind: 'box', length: '250', width: '64', depth: '95' })?.u).toBeCloseTo(
      1520 * Math.hypot(0.5 / 250, 0.5 / 64, 0.5 / 95),
      9,
    );
  });
});
