import { describe, expect, it } from 'vitest';
import type { Json } from '#lib/record/journal';
import { NO_TRADE } from '#lib/work/orders/documents';
import { checkDocument } from '#lib/work/shelf/check';
import type { Noun } from '#lib/work/shelf/shelf';
import { EMPTY_SHELF } from '#lib/work/shelf/shelf';

const wrongAt = (noun: Noun, document: unknown): readonly string[] =>
  checkDocument(noun, (document as { id: string }).id, document as Json, () => EMPTY_SHELF).map(({ path }) => path);

const ORDER = {
  id: 'order-1',
  kind: 'market',
  name: 'Spring market',
  buyer: null,
  due: '2027-05-08',
  wants: [{ formula: 'meadow', bars: 40, label: '100' }],
  state: 'open',
  note: '',
};
const GOODS = { id: 'band', kind: 'wrap', name: 'Paper band', pack: '100', price: '6,50', days: 7, perBar: '1', onHand: -2 };

describe('orders, goods and how a workshop trades', () => {
  it('are kept as they are typed', () => {
    expect(wrongAt('order', ORDER)).toEqual([]);
    expect(wrongAt('trade', NO_TRADE)).toEqual([]);
    expect(wrongAt('goods', GOODS)).toEqual([]);
  });

  const wrong: readonly (readonly [string, Noun, Readonly<Record<string, unknown>>, string])[] = [
    ['a day in no calendar', 'order', { ...ORDER, due: '2027-02-30' }, 'due'],
    ['a day that is none', 'order', { ...ORDER, due: 'in May' }, 'due'],
    ['a slip of the year', 'order', { ...ORDER, due: '0207-05-08' }, 'due'],
    ['a year nobody lives to see', 'order', { ...ORDER, due: '9999-12-31' }, 'due'],
    ['no bars', 'order', { ...ORDER, wants: [{ formula: 'meadow', bars: 0, label: null }] }, 'wants.0.bars'],
    ['half a bar', 'order', { ...ORDER, wants: [{ formula: 'meadow', bars: 1.5, label: null }] }, 'wants.0.bars'],
    ['nothing wanted', 'order', { ...ORDER, wants: [] }, 'wants'],
    ['a label of words', 'order', { ...ORDER, wants: [{ formula: 'meadow', bars: 1, label: 'heavy' }] }, 'wants.0.label'],
    ['a label of nothing', 'order', { ...ORDER, wants: [{ formula: 'meadow', bars: 1, label: '0' }] }, 'wants.0.label'],
    ['an eighth day', 'trade', { ...NO_TRADE, days: [8] }, 'days.0'],
    ['a day twice', 'trade', { ...NO_TRADE, days: [1, 1] }, 'days'],
    ['a rate below nothing', 'trade', { ...NO_TRADE, rate: '-4' }, 'rate'],
    ['a wrap without a name', 'goods', { ...GOODS, name: ' ' }, 'name'],
    ['a pack of nothing', 'goods', { ...GOODS, pack: '0' }, 'pack'],
    ['a price of words', 'goods', { ...GOODS, price: 'cheap' }, 'price'],
    ['more than can be meant', 'goods', { ...GOODS, price: '10000000000' }, 'price'],
  ];

  it.each(wrong)('%s is told beside its field', (_, noun, document, path) => {
    expect(wrongAt(noun, document)).toEqual([path]);
  });
});
