import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { changesBetween } from '#lib/work/formula/index';
import type { Formula, Mould } from '#lib/work/formula/index';
import { messages as versions } from '../../../app/formulas/messages-versions';
import type { Names } from '../../../app/formulas/messages-versions';
import { changed, draftOf, rested, withEntry, withWeighing } from '../../../app/formulas/_parts/draft';
import { draftStore } from '../../../app/formulas/_parts/draft-store';
import { givenWay } from '../../../app/formulas/_parts/give-way';
import { sideOf } from '../../../app/formulas/_parts/mould-drawing';
import { aboutDocument } from '../../../app/formulas/_parts/placed';
import { entry, formula, share, workshop } from '#tests/support/formula';

const OILS = formula({
  entries: [
    entry('coconut', 'fat', 'coconut', share('30')),
    entry('olive', 'fat', 'olive', share('60'), { lock: 'share' }),
    entry('castor', 'fat', 'castor', share('10')),
  ],
});
const sharesOf = ({ entries }: Formula): readonly string[] =>
  entries.map(({ amount }) => (amount?.kind === 'share' ? amount.percent : (amount?.kind ?? '')));

describe('while one share is typed', () => {
  const field = 'entries.coconut.amount';
  const [coconut] = OILS.entries;
  if (coconut === undefined) throw new Error('no coconut');

  it('the others that are not locked make room, to hundredths that come to a hundred', () => {
    expect(sharesOf(givenWay(draftOf(OILS, 1), coconut, share('33'), field) ?? OILS)).toEqual(['33', '60', '7']);
    const three = formula({ entries: ['coconut', 'olive', 'castor', 'shea'].map((id) => entry(id, 'fat', id, share('25'))) });
    const moved = givenWay(draftOf(three, 1), three.entries[0] ?? coconut, share('20'), field);
    expect(sharesOf(moved ?? three)).toEqual(['20', '26.67', '26.67', '26.66']);
  });

  it('what was typed on the way leaves no trace: reckoned from where the field was entered', () => {
    const wide = withEntry(OILS, 'olive', { lock: null });
    let draft = draftOf(wide, 1);
    for (const digits of ['9', '99', '100', '10', '40']) {
      const next = givenWay(draft, coconut, share(digits), field) ?? withEntry(draft.formula, 'coconut', { amount: share(digits) });
      draft = changed(draft, next, field);
    }
    expect(sharesOf(draft.formula)).toEqual(['40', '51.43', '8.57']);
  });

  it('on the way past what the others can give they stand as they did, and a share of a hundred leaves them theirs', () => {
    const wide = withEntry(OILS, 'olive', { lock: null });
    let draft = draftOf(wide, 1);
    const type = (digits: string): readonly string[] => {
      const amount = digits === '' ? null : share(digits);
      draft = changed(draft, givenWay(draft, coconut, amount, field) ?? withEntry(draft.formula, 'coconut', { amount }), field);
      return sharesOf(draft.formula);
    };
    expect(type('10')).toEqual(['10', '77.14', '12.86']);
    expect(type('')).toEqual(['', '60', '10']);
    type('10');
    expect(type('100')).toEqual(['100', '60', '10']);
    draft = rested(draft);
    expect(type('40')).toEqual(['40', '51.43', '8.57']);
  });

  it('nothing gives way to a weight, nor where the locked ones leave no room', () => {
    expect(givenWay(draftOf(OILS, 1), coconut, share('45'), field)).toBeNull();
    expect(givenWay(draftOf(OILS, 1), coconut, { kind: 'mass', value: '45', unit: 'g' }, field)).toBeNull();
    const weighed = withEntry(OILS, 'castor', { amount: { kind: 'mass', value: '45', unit: 'g' } });
    expect(givenWay(draftOf(weighed, 1), coconut, share('35'), field)).toBeNull();
  });
});

describe('a draft held by this screen', () => {
  const held = new Map<string, string>();
  beforeEach(() => {
    held.clear();
    const storage = {
      getItem: (key: string) => held.get(key) ?? null,
      setItem: (key: string, value: string) => void held.set(key, value),
      removeItem: (key: string) => void held.delete(key),
    };
    vi.stubGlobal(
      'localStorage',
      new Proxy(storage, { ownKeys: () => [...held.keys()], getOwnPropertyDescriptor: () => ({ enumerable: true, configurable: true }) }),
    );
  });
  afterEach(() => vi.unstubAllGlobals());

  const wrong: readonly (readonly [string, Partial<Formula>])[] = [
    ['a day still to come', { references: [{ kind: 'notification', number: '', date: '', ranges: [], file: null }] }],
    ['a superfat of 45 signs', { wishes: { superfat: '5'.repeat(45), lye: null } }],
    ['a name of 300 letters', { name: 'x'.repeat(300) }],
    ['half a bar', { size: { kind: 'bars', count: 12.5, value: '100', unit: 'g' } }],
    ['no bars yet', { size: { kind: 'bars', count: 0, value: '', unit: 'g' } }],
    ['no name', { name: '' }],
  ];
  it.each(wrong)('with %s comes back as it was', (_name, given) => {
    const one = formula({ id: 'typed', ...given });
    draftStore.write({ formula: one, base: 2 });
    expect(draftStore.read('typed')).toEqual({ formula: one, base: 2 });
    expect(draftStore.all()).toEqual([{ formula: one, base: 2 }]);
  });

  it.each([['{"formula":{"id":"x"},"base":1}'], ['{'], ['{"base":0}'], ['null']])('what is none is left alone: %s', (text) => {
    held.set('potwatch.formula.x', text);
    expect(draftStore.read('x')).toBeNull();
  });
});

describe('what changed between two versions, in words', () => {
  const names: Names = {
    material: (id) => `<${id}>`,
    entry: (id) => `<${id}>`,
    mould: (id) => `<${id}>`,
    blend: (id) => `<${id}>`,
    lot: (id) => `<${id}>`,
  };
  const before = formula();
  const said = (after: Formula): readonly string[] =>
    changesBetween(before, after).map(({ path, before: was, after: is }) =>
      [versions.place(path, names), versions.value(path, was, names), versions.value(path, is, names)].join(' | '),
    );

  it.each<[string, Partial<Formula>, string]>([
    ['moulds', { moulds: [{ mould: 'slab', count: 2, fill: '90' }] }, 'moulds | nothing | 2 × <slab>, 90 % full'],
    [
      'papers',
      {
        references: [
          { kind: 'notification', number: 'N 1', date: '2026-01-01', ranges: [{ material: 'olive', low: '0', high: '40' }], file: null },
        ],
      },
      'assessments and notifications | nothing | Notification N 1 of 2026-01-01, <olive> 0 to 40 %',
    ],
    ['strength', { wishes: { superfat: '5', lye: { kind: 'ratio', water: '2' } } }, 'strength of the lye | 33 % | water 2 to 1'],
    ['size', { size: { kind: 'bars', count: 12, value: '125', unit: 'g' } }, 'how large | nothing | 12 bars, one bar as poured 125 g'],
    [
      'limits',
      { limits: { superfat: { low: '3', high: '8' }, lye: null } },
      'where an over-pour stays calm: superfat | nothing | 3 to 8 %',
    ],
  ])('%s', (_name, given, expected) => {
    expect(said(formula(given))).toEqual([expected]);
  });

  it('an amount says what it is a share of', () => {
    const changes = (['fats', 'batter', 'liquid', 'hydroxide', 'blend'] as const).map((of) =>
      versions.value('entries[lavender].amount', share('2', of), names),
    );
    expect(changes).toEqual(['2 % of the oils', '2 % of the batter', '2 % of the liquid', '2 % of the moles', '2 % of the blend']);
    const [gone] = said(formula({ entries: [...before.entries, entry('lav', 'fragrance', 'lavender-oil', share('2', 'batter'))] }));
    expect(gone).toBe('<lav> | nothing | 2 % of the batter');
  });

  it('temperatures, locks, places and how a thing is weighed', () => {
    const temperatures: Formula['temperatures'] = {
      window: { low: '34', high: '44' },
      apart: '5',
      apartLevel: 'hold',
      setsAt: '29',
      milkLimit: null,
      pourAt: null,
    };
    const [line] = said(formula({ temperatures }));
    expect(line).toMatch(/^temperatures \| nothing \| 34 to 44 °C; .*5 °C, holds joining until they are closer; .*29 °C$/);
    expect(said(withEntry(before, 'olive', { lot: 'lot-olive-11', part: 'extra' }))).toEqual([
      '<olive>: its part | oils | everything else',
      '<olive>: lot | nothing | <lot-olive-11>',
    ]);
    const [locked] = said(withEntry(before, 'olive', { lock: 'share' }));
    expect(locked).toBe('<olive>: what is fixed | nothing | its share stays');
    expect(said(withEntry(before, 'water', { frozen: true }))).toEqual(['<water>: frozen | liquid | frozen']);
    expect(said(withWeighing(before, 'olive', true))).toEqual(['<olive>: how it is weighed | nothing | weighed by what its bottle loses']);
    expect(withWeighing(withWeighing(before, 'olive', true), 'olive', false)).toEqual(before);
  });
});

describe('a mould from the side', () => {
  const waterFill: Mould = {
    id: 'm',
    name: 'm',
    shape: { kind: 'water-fill', water: '600', unit: 'g', celsius: '20', cavities: 6 },
    lengthU: null,
  };
  it('measured by its water is as large as what each cavity holds', () => {
    const side = sideOf(waterFill);
    // 100 g of water at 20 °C, 0.9982 g/cm³: 100.2 cm³, 46.4 mm cubed.
    expect(side).toMatchObject({
      cube: true,
      drawn: 3,
      width: expect.closeTo(46.45, 1) as unknown,
      depth: expect.closeTo(46.45, 1) as unknown,
    });
  });
});

describe('a problem of what a formula is made of', () => {
  const preparations = [
    { id: 'a', name: 'Melted ahead', note: null, parts: [] },
    { id: 'b', name: 'Other', note: null, parts: [] },
  ];
  it('names it, and the ring it goes round', () => {
    const context = workshop({ preparations });
    expect(aboutDocument({ code: 'shares-sum', path: 'preparations[a].parts', params: {} }, context)).toBe('Melted ahead');
    expect(aboutDocument({ code: 'cycle', path: 'preparations[a]', params: { chain: 'a → b → a' } }, context)).toBe(
      'Melted ahead → Other → Melted ahead',
    );
    expect(aboutDocument({ code: 'out-of-range', path: 'moulds[slab].shape.depth', params: {} }, context)).toBe('slab');
    expect(aboutDocument({ code: 'no-fat', path: 'entries', params: {} }, context)).toBeNull();
  });
});
