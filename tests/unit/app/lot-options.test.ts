import { expect, it } from 'vitest';
import { lotOptions } from '../../../app/stores/_parts/stores';
import { wrapIn } from '../../../app/stores/_parts/wrap-lot';

const item = (id: string, mark: string, material: string) => ({ id, version: 1, wall: 1, document: { id, mark, material } });
const of = (items: readonly unknown[], away: readonly unknown[] = []) => ({ items, away }) as never;

it('lots of one mark are told apart by what they are of, and one that was put away can be followed and recalled', () => {
  const lots = of([item('b', 'GR 22', 'oats'), item('a', 'GR 22', 'clay')], [item('c', 'OL 9', 'gone')]);
  const materials = of([item('oats', '', '')].map((one) => ({ ...one, document: { id: 'oats', name: 'Ground oats' } })));
  const wraps = [
    { goods: 'box', name: 'Box & lid', lot: null },
    { goods: 'band', name: 'Paper band', lot: 'PB 1' },
  ];
  const options = lotOptions({ lots, materials, preparations: of([]), used: {}, wraps });
  expect(options.map(([, label]) => label)).toEqual([
    'GR 22, clay',
    'GR 22, Ground oats',
    'OL 9, gone',
    'Box & lid, of no lot',
    'Paper band, PB 1',
  ]);
  const asked = options.map(([query]) => new URLSearchParams(query));
  expect(asked.map((query) => query.get('lot'))).toEqual(['a', 'b', 'c', null, null]);
  expect(asked.map(wrapIn)).toEqual([null, null, null, { goods: 'box', lot: null }, { goods: 'band', lot: 'PB 1' }]);
  expect(wrapIn(new URLSearchParams('wrap=odd'))).toBeNull();
});
