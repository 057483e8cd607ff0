import { describe, expect, it } from 'vitest';
import { checkLot, checkMaterial, checkMould, checkPreparation, CATALOGUE, planOf } from '#lib/work/formula/index';
import type { Entry, Formula, Lot, Preparation } from '#lib/work/formula/index';
import {
  COCONUT,
  entry,
  formula,
  mass,
  OLIVE,
  problemsOf,
  REST,
  share,
  SODA,
  WATER,
  withEntry,
  workshop,
  WORKSHOP,
} from '#tests/support/formula';

const spoilt = (id: string, change: Partial<Entry>): Formula => formula({ entries: withEntry(id, change) });
const wishes = (superfat: string | null, lye: Formula['wishes']['lye'] = { kind: 'concentration', percent: '33' }): Formula =>
  formula({ wishes: { superfat, lye } });

const spoonOf = (id: string): Formula => spoilt(id, { amount: { kind: 'unweighed', text: '3 tbsp' } });

const papers = (low: string, high: string): Formula =>
  formula({
    references: [{ kind: 'notification', number: 'N 4', date: '2026-01-01', ranges: [{ material: 'olive', low, high }], file: null }],
  });

const of = (id: string, material: string): Preparation => ({
  id,
  name: id,
  note: null,
  parts: [{ material, lot: null, percent: '100' }],
});

const withLot = (one: Lot) => planOf(spoilt('coconut', { lot: 'lot-out' }), workshop({ lots: [...WORKSHOP.lots, one] }));

const lot = (sv: string, material = 'coconut'): Lot => ({
  id: 'l',
  mark: 'X',
  material,
  certificate: { date: '2026-01-01', supplier: 'S', sv: { value: sv } },
  files: [],
});

describe('what is wrong with a formula', () => {
  it.each<[string, Formula, string, string]>([
    ['a unit nobody weighs by', spoilt('olive', { amount: mass('1 pint') }), 'unknown-unit', 'entries[1].amount.value'],
    ['below nothing, with its unit', spoilt('olive', { amount: mass('-5 g') }), 'negative', 'entries[1].amount.value'],
    ['a superfat that is two numbers', wishes('1,250'), 'which-number', 'wishes.superfat'],
    ['a hydroxide by the spoon', spoonOf('soda'), 'unweighed-counts', 'entries[3].amount'],
    ['an oil by the spoon', spoonOf('olive'), 'unweighed-counts', 'entries[1].amount'],
    ['water by the cup', spoonOf('water'), 'unweighed-counts', 'entries[2].amount'],
    [
      'a milk powder by the spoon, whose fat takes hydroxide',
      formula({ entries: [...formula().entries, entry('p', 'extra', 'milk-powder', { kind: 'unweighed', text: '2 tbsp' })] }),
      'unweighed-counts',
      'entries[4].amount',
    ],
    [
      'lye of 50 % by moulds, of purity below 100',
      formula({
        ...wishes('5', { kind: 'concentration', percent: '50' }),
        size: { kind: 'moulds' },
        moulds: [{ mould: 'slab', count: 1, fill: '90' }],
      }),
      'lye-too-strong',
      'wishes.lye',
    ],
    [
      'every oil locked by weight, and another size',
      formula({
        entries: withEntry('olive', { lock: 'mass' }, withEntry('coconut', { lock: 'mass' })),
        size: { kind: 'moulds' },
        moulds: [{ mould: 'slab', count: 1, fill: '90' }],
      }),
      'locks-size',
      'size',
    ],
    ['a negative mass', spoilt('olive', { amount: mass('-5') }), 'not-above-zero', 'entries[1].amount.value'],
    ['zero', spoilt('olive', { amount: mass('0') }), 'not-above-zero', 'entries[1].amount.value'],
    ['NaN', spoilt('olive', { amount: mass('NaN') }), 'not-a-number', 'entries[1].amount.value'],
    ['text', spoilt('olive', { amount: mass('a lot') }), 'not-a-number', 'entries[1].amount.value'],
    ['an exponent', spoilt('olive', { amount: mass('1e3') }), 'not-a-number', 'entries[1].amount.value'],
    ['10^9 kg', spoilt('olive', { amount: mass('1000000000', 'kg') }), 'too-large', 'entries[1].amount.value'],
    ['nothing typed', spoilt('olive', { amount: mass('') }), 'missing', 'entries[1].amount.value'],
    ['no amount yet', spoilt('olive', { amount: null }), 'missing', 'entries[1].amount'],
    ['no material yet', spoilt('olive', { material: null }), 'missing', 'entries[1].material'],
    ['a material nobody knows', spoilt('olive', { material: 'moon-oil' }), 'unknown-material', 'entries[1].material'],
    ['a lot nobody knows', spoilt('olive', { lot: 'lot-x' }), 'unknown-lot', 'entries[1].material'],
    ['a lot of another material', spoilt('olive', { lot: 'lot-coconut-07' }), 'lot-of-another', 'entries[1].material'],
    ['a share above 100', spoilt('olive', { amount: share('130') }), 'too-large', 'entries[1].amount.percent'],
    ['a share of the wrong thing', spoilt('olive', { amount: share('50', 'hydroxide') }), 'wrong-share', 'entries[1].amount.of'],
    ['dry hydroxide by what its bottle loses', spoilt('soda', { weighed: 'loss' }), 'alkali-by-loss', 'entries[3].weighed'],
    ['water as a fat', spoilt('olive', { material: 'water' }), 'wrong-part', 'entries[1].part'],
    [
      'hydroxide as an extra',
      formula({ entries: [...formula().entries, entry('x', 'extra', 'sodium-hydroxide', mass('5'), { lot: 'lot-soda-06' })] }),
      'wrong-part',
      'entries[4].part',
    ],
    [
      'shares that come to 90',
      formula({
        entries: [{ ...COCONUT, amount: share('30') }, { ...OLIVE, amount: share('60') }, WATER, SODA],
        size: { kind: 'fats', value: '1000', unit: 'g' },
      }),
      'shares-sum',
      'entries',
    ],
    [
      'a weight beside shares that fill up to a hundred',
      formula({
        entries: [{ ...COCONUT, lock: 'mass' }, { ...OLIVE, amount: REST }, WATER, SODA],
        size: { kind: 'fats', value: '1000', unit: 'g' },
      }),
      'shares-sum',
      'entries',
    ],
    [
      'two rests',
      formula({ entries: [{ ...COCONUT, amount: REST }, { ...OLIVE, amount: REST }, WATER, SODA] }),
      'two-rests',
      'entries[1].amount',
    ],
    ['two entries of one id', formula({ entries: [...formula().entries, OLIVE] }), 'twice', 'entries[4].id'],
    [
      'ounces nobody has explained',
      spoilt('water', { amount: { kind: 'ounces-unclear', value: '8' } }),
      'ounces-unclear',
      'entries[2].amount',
    ],
    ['a formula in shares without a size', formula({ entries: [{ ...OLIVE, amount: share('100') }, WATER, SODA] }), 'no-size', 'size'],
    ['no fat', formula({ entries: [WATER, SODA] }), 'no-fat', 'entries'],
    ['no alkali', formula({ entries: [OLIVE, WATER] }), 'no-alkali', 'entries'],
    ['no liquid', formula({ entries: [OLIVE, SODA] }), 'no-liquid', 'entries'],
    ['superfat not said', wishes(null), 'superfat-not-said', 'wishes.superfat'],
    ['superfat below zero', wishes('-1'), 'out-of-range', 'wishes.superfat'],
    ['superfat of text', wishes('five'), 'not-a-number', 'wishes.superfat'],
    ['lye not said', wishes('5', null), 'lye-not-said', 'wishes.lye'],
    ['lye of 0 %', wishes('5', { kind: 'concentration', percent: '0' }), 'not-above-zero', 'wishes.lye.percent'],
    ['lye of 60 %', wishes('5', { kind: 'concentration', percent: '60' }), 'lye-too-strong', 'wishes.lye'],
    ['superfat said and fixed by masses', spoilt('soda', { amount: mass('140') }), 'said-twice', 'wishes.superfat'],
    ['a purity nobody has said', spoilt('soda', { lot: null }), 'purity-missing', 'materials[sodium-hydroxide].purity'],
    ['bars that are none', formula({ size: { kind: 'bars', count: 0, value: '100', unit: 'g' } }), 'not-above-zero', 'size.count'],
    ['half a bar', formula({ size: { kind: 'bars', count: 1.5, value: '100', unit: 'g' } }), 'not-whole', 'size.count'],
    ['a mould nobody knows', formula({ moulds: [{ mould: 'boot', count: 1, fill: '90' }] }), 'unknown-mould', 'moulds[0].mould'],
    ['moulds to be sized by, and none', formula({ size: { kind: 'moulds' } }), 'missing', 'moulds'],
    ['a paper without its upper end', papers('10', ''), 'missing', 'references[0].ranges[0].high'],
    ['a paper with text for a number', papers('few', '20'), 'not-a-number', 'references[0].ranges[0].low'],
    ['a paper beyond a hundred', papers('10', '120'), 'out-of-range', 'references[0].ranges[0].high'],
    ['a paper upside down', papers('20', '10'), 'band-upside-down', 'references[0].ranges[0]'],
    ['a band upside down', formula({ limits: { superfat: { low: '6', high: '4' }, lye: null } }), 'band-upside-down', 'limits.superfat'],
    [
      'a locked mass above the size',
      formula({ size: { kind: 'fats', value: '200', unit: 'g' }, entries: withEntry('coconut', { lock: 'mass' }) }),
      'locks-clash',
      'size',
    ],
    [
      'a pinch no plan can hold',
      formula({ entries: [...formula().entries, entry('x', 'extra', 'kaolin', mass('0.0001'))] }),
      'too-small',
      'entries[4].amount',
    ],
  ])('%s', (_name, of, code, path) => {
    expect(problemsOf(of)).toContainEqual(expect.objectContaining({ code, path }));
  });

  it('says them all at once', () => {
    const entries = [{ ...COCONUT, amount: mass('x') }, { ...OLIVE, material: null }, WATER, { ...SODA, lot: null }];
    const found = problemsOf(formula({ entries, wishes: { superfat: 'y', lye: null } })).map(({ code }) => code);
    expect(found).toEqual(expect.arrayContaining(['not-a-number', 'missing', 'purity-missing', 'lye-not-said']));
  });

  it('the masses of alkali given already are more than the superfat allows', () => {
    const entries = [COCONUT, OLIVE, WATER, SODA, entry('potash', 'alkali', 'sodium-hydroxide', mass('200'), { lot: 'lot-soda-06' })];
    expect(problemsOf(formula({ entries }))).toContainEqual(expect.objectContaining({ code: 'alkali-too-much' }));
  });

  it('a stock lye weaker than the lye wished', () => {
    const weak: Preparation = {
      id: 'weak',
      name: 'Weak',
      note: null,
      parts: [
        { material: 'sodium-hydroxide', lot: 'lot-soda-06', percent: '20' },
        { material: 'water', lot: null, percent: '80' },
      ],
    };
    expect(problemsOf(spoilt('soda', { material: 'weak', lot: null }), workshop({ preparations: [weak] }))).toContainEqual(
      expect.objectContaining({ code: 'lye-too-weak' }),
    );
  });

  it('masterbatches in a ring, and one of itself', () => {
    const context = workshop({ preparations: [of('a', 'b'), of('b', 'c'), of('c', 'a'), of('self', 'self')] });
    expect(problemsOf(spoilt('olive', { material: 'a' }), context)).toContainEqual({
      code: 'cycle',
      path: 'preparations[a]',
      params: { chain: 'a → b → c → a' },
    });
    expect(checkPreparation(of('self', 'self'), context)).toContainEqual(expect.objectContaining({ code: 'cycle' }));
  });

  it('preparations that double at every step end in words, soon', () => {
    const preparations = Array.from({ length: 40 }, (_, at): Preparation => ({
      id: `p${at}`,
      name: `p${at}`,
      note: null,
      parts: ['50', '50'].map((percent) => ({ material: at === 0 ? 'olive' : `p${at - 1}`, lot: null, percent })),
    }));
    expect(problemsOf(spoilt('olive', { material: 'p39' }), workshop({ preparations }))).toContainEqual(
      expect.objectContaining({ code: 'too-large' }),
    );
  });
});

describe('what is wrong with one document', () => {
  const olive = CATALOGUE.find(({ id }) => id === 'olive');
  const soda = CATALOGUE.find(({ id }) => id === 'sodium-hydroxide');
  if (olive?.kind !== 'fat' || soda?.kind !== 'alkali') throw new Error('no olive oil');

  it.each(['0', '-3', '1200', 'x', ''])('a fat with a saponification value of "%s"', (value) => {
    expect(checkMaterial({ ...olive, sv: { ...olive.sv, value } })).toContainEqual(expect.objectContaining({ path: 'sv' }));
  });

  it.each(['0', '130', '-1', 'pure'])('a purity of "%s" %%', (value) => {
    expect(checkMaterial({ ...soda, purity: { value, unit: '%', source: 'label', grade: 'typed' } })).toContainEqual(
      expect.objectContaining({ path: 'purity' }),
    );
  });

  it('nothing wrong with any of the catalogue', () => {
    for (const material of CATALOGUE) expect(checkMaterial(material), material.id).toEqual([]);
  });

  it('a certificate outside the standard’s range is refused until that very value is confirmed, and then says so wherever it goes', () => {
    const outside = { ...lot('290'), id: 'lot-out' };
    const confirmed = (value: string): Lot => ({
      ...outside,
      certificate: { date: '2026-01-01', supplier: 'S', sv: { value: '290' }, svConfirmed: value },
    });
    for (const one of [outside, confirmed('289')]) {
      expect(checkLot(one, CATALOGUE).problems).toContainEqual(expect.objectContaining({ code: 'certificate-outside' }));
      expect(withLot(one)).toMatchObject({ kind: 'problems', problems: [{ code: 'certificate-outside' }] });
    }
    expect(checkLot(confirmed('290'), CATALOGUE)).toMatchObject({
      problems: [],
      warnings: [{ code: 'certificate-confirmed-outside', level: 'mind', params: { value: 290, low: 248, high: 265 } }],
    });
    const plan = withLot(confirmed('290'));
    if (plan.kind !== 'plan') throw new Error('refused');
    expect(plan.warnings).toContainEqual(expect.objectContaining({ code: 'certificate-confirmed-outside' }));
    const used = plan.plan.basis?.values.find(({ line, what }) => String(line) === 'coconut' && what === 'saponification value');
    expect(used?.source).toMatch(/confirmed outside the standard’s range/);
  });

  it('a certificate outside the standard’s range is refused, outside a recalled one said', () => {
    expect(checkLot(lot('290'), CATALOGUE).problems).toEqual([
      { code: 'certificate-outside', path: 'certificate.sv', params: { value: 290, low: 248, high: 265 } },
    ]);
    const recalled = checkLot(lot('260', 'murumuru'), CATALOGUE);
    expect(recalled.problems).toEqual([]);
    expect(recalled.warnings).toContainEqual(expect.objectContaining({ code: 'certificate-unusual' }));
    expect(checkLot(lot('256'), CATALOGUE).warnings).toContainEqual(expect.objectContaining({ code: 'certificate-in-range' }));
  });

  it.each([
    ['length', { kind: 'box', length: '-1', width: '60', depth: '60' }],
    ['depth', { kind: 'box', length: '100', width: '60', depth: 'deep' }],
    ['cavities', { kind: 'water-fill', water: '600', unit: 'g', celsius: '20', cavities: 0 }],
    ['celsius', { kind: 'water-fill', water: '600', unit: 'g', celsius: '120', cavities: 1 }],
  ] as const)('a mould with a wrong %s', (field, shape) => {
    expect(checkMould({ id: 'm', name: 'm', shape, lengthU: null }).map(({ path }) => path)).toEqual([`shape.${field}`]);
  });

  it('the workshop itself is sound', () => {
    for (const mould of WORKSHOP.moulds) expect(checkMould(mould)).toEqual([]);
    for (const one of WORKSHOP.lots) expect(checkLot(one, WORKSHOP.materials).problems, one.id).toEqual([]);
  });
});
