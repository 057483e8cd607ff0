import { createElement } from 'react';
import type { Goods, WrapLot } from '#lib/work/orders/documents';
import { drawnOf, piecesOnHand, wrapOnHand } from '#lib/work/orders/wraps';
import type { Drawn } from '#lib/work/orders/wraps';
import type { Spec } from '../../../_ui/kept/fields';
import type { Kind } from '../../../_ui/kept/kind';
import { at, gather } from '../../../_ui/kept/typed';
import type { Gather, Typed } from '../../../_ui/kept/typed';
import { messages } from '../../messages-orders';
import { Price } from './price';

const { goods: words } = messages;
const WRAP = '';
const MOST = 1e9;
const LONGEST_WAIT = 1000;
const MOST_LOTS = 40;
const PIECES = { from: -100_000, to: 1_000_000, whole: true } as const;

type Named = { readonly id: string; readonly name: string };

const key = (n: number, field: 'mark' | 'onHand' | 'drawn' | 'price'): string => `lots.${n}.${field}`;

/** How many lots a form speaks of. */
const lotsIn = (typed: Typed): number => {
  for (let n = MOST_LOTS; n > 0; n -= 1) if (at(typed, key(n - 1, 'mark')) !== '' || at(typed, key(n - 1, 'onHand')) !== '') return n;
  return 0;
};

const wrapSpecs = (typed: Typed, formulas: readonly Named[]): readonly Spec[] => [
  { kind: 'number', key: 'perBar', label: words.perBar },
  {
    kind: 'choice',
    key: 'only',
    label: words.only,
    options: [['', words.every], ...formulas.map(({ id, name }) => [id, name] as const)],
  },
  { kind: 'number', key: 'onHand', label: words.onHand, hint: words.onHandHint },
  // One more than there are, so that another can be added by typing it.
  ...Array.from({ length: Math.min(MOST_LOTS, lotsIn(typed) + 1) }, (_, n): Spec => ({
    kind: 'group',
    key: `group.${n}`,
    fields: [
      { kind: 'text', key: key(n, 'mark'), label: words.lot(n + 1), hint: words.lotHint },
      { kind: 'number', key: key(n, 'onHand'), label: words.lotOnHand },
      { kind: 'number', key: key(n, 'price'), label: words.lotPrice, hint: words.asAbove },
    ],
  })),
];

const specsOf = (typed: Typed, materials: readonly Named[], formulas: readonly Named[]): readonly Spec[] => {
  const material = at(typed, 'material') !== WRAP;
  return [
    {
      kind: 'choice',
      key: 'material',
      label: words.kind,
      options: [[WRAP, words.wrap], ...materials.map(({ id, name }) => [id, name] as const)],
    },
    ...(material ? [] : [{ kind: 'text', key: 'name', label: words.name } as const]),
    { kind: 'number', key: 'pack', label: words.pack(material) },
    { kind: 'number', key: 'price', label: words.price },
    { kind: 'number', key: 'days', label: words.wait },
    ...(material ? [] : wrapSpecs(typed, formulas)),
  ];
};

const whole = (text: string | null): number | null => (text === null ? null : Number(text));

/** What had been drawn when the form was filled in: what is shown there as on hand is less that. */
const drawnThen = (typed: Typed, field: string, now: number): number => (at(typed, field) === '' ? now : Number(at(typed, field)));

const readLots = (id: string, typed: Typed, form: Gather, drawn: Drawn): readonly WrapLot[] =>
  Array.from({ length: lotsIn(typed) }, (_, n): WrapLot => {
    const mark = form.name(key(n, 'mark'));
    const first = Array.from({ length: n }, (__, before) => at(typed, key(before, 'mark'))).includes(mark);
    if (first) form.note(key(n, 'mark'), words.twice);
    const onHand = Number(form.must(key(n, 'onHand'), PIECES));
    return {
      mark,
      onHand,
      drawn: drawnThen(typed, key(n, 'drawn'), drawnOf(drawn, id, mark)),
      price: form.number(key(n, 'price'), { from: 0, to: MOST }),
    };
  });

const readWrap = (id: string, typed: Typed, form: Gather, drawn: Drawn): Partial<Goods> => {
  const [lots, only] = [readLots(id, typed, form, drawn), at(typed, 'only')];
  const taken = drawnThen(typed, 'drawn', drawnOf(drawn, id, null));
  const onHand = whole(form.number('onHand', PIECES));
  return {
    perBar: form.number('perBar', { from: 0, to: 100 }),
    onHand,
    ...(onHand === null || taken === 0 ? {} : { drawn: taken }),
    ...(lots.length === 0 ? {} : { lots }),
    ...(only === '' ? {} : { only }),
  };
};

const read = (id: string, typed: Typed, drawn: Drawn) => {
  const form = gather(typed);
  const material = at(typed, 'material');
  const isWrap = material === WRAP;
  const document: Goods = {
    id: isWrap ? id : material,
    kind: isWrap ? 'wrap' : 'material',
    name: isWrap ? form.name('name') : '',
    pack: form.number('pack', { above: 0, to: MOST }),
    price: form.number('price', { from: 0, to: MOST }),
    days: whole(form.number('days', { from: 0, to: LONGEST_WAIT, whole: true })),
    perBar: null,
    onHand: null,
    ...(isWrap ? readWrap(id, typed, form, drawn) : {}),
  };
  return { document, errors: form.errors, minds: {} };
};

const typedOf = (goods: Goods | null, drawn: Drawn): Typed => {
  const there = goods === null || goods.kind === 'material' ? [] : wrapOnHand(goods, drawn);
  const left = (lot: string | null): string => String(there.find((one) => one.lot === lot)?.left ?? '');
  return {
    material: goods?.kind === 'material' ? goods.id : WRAP,
    name: goods?.name ?? '',
    pack: goods?.pack ?? '',
    price: goods?.price ?? '',
    days: goods?.days == null ? '' : String(goods.days),
    perBar: goods?.perBar ?? '',
    only: goods?.only ?? '',
    onHand: left(null),
    drawn: goods === null ? '' : String(drawnOf(drawn, goods.id, null)),
    ...Object.fromEntries(
      (goods?.lots ?? []).flatMap(({ mark, price }, n) => [
        [key(n, 'mark'), mark],
        [key(n, 'onHand'), left(mark)],
        [key(n, 'drawn'), String(drawnOf(drawn, goods?.id ?? '', mark))],
        [key(n, 'price'), price ?? ''],
      ]),
    ),
  };
};

const isCounted = ({ kind, onHand, lots = [] }: Goods): boolean => kind === 'wrap' && (onHand !== null || lots.length > 0);

/** Packs, prices and waits. A material's goods bear the material's own id. @param drawn pieces that bars have taken of wraps */
export const goodsKind = (materials: readonly Named[], formulas: readonly Named[], drawn: Drawn): Kind<Goods> => {
  const nameOf = ({ id, kind, name }: Goods): string => (kind === 'wrap' ? name : (materials.find((one) => one.id === id)?.name ?? id));
  return {
    noun: 'goods',
    words,
    heads: [
      { name: words.heads.name },
      { name: words.heads.pack, n: true },
      { name: words.heads.price, n: true },
      { name: words.heads.days, n: true, wide: true },
      { name: words.heads.onHand, n: true },
    ],
    nameOf,
    cells: (goods) => [
      goods.pack === null ? '' : words.packText(goods.pack, goods.kind === 'material'),
      goods.price === null ? '' : createElement(Price, { key: 'price', price: goods.price }),
      goods.days === null ? '' : String(goods.days),
      isCounted(goods) ? String(piecesOnHand(goods, drawn)) : '',
    ],
    saidOf: (goods) => [nameOf(goods), goods.pack ?? '', goods.price ?? ''].filter((text) => text !== '').join('; '),
    typedOf: (goods) => typedOf(goods, drawn),
    specs: (typed) => specsOf(typed, materials, formulas),
    read: (id, typed) => read(id, typed, drawn),
  };
};
