import { expect, it } from 'vitest';
import { lotOptions } from '../../../app/stores/_parts/stores';

const item = (id: string, mark: string, material: string) => ({ id, version: 1, wall: 1, document: { id, mark, material } });
const of = (items: readonly unknown[], away: readonly unknown[] = []) => ({ items, away }) as never;

it('lots of one mark are told apart by what they are of, and one that was put away can be followed and recalled', () => {
  const lots = of([item('b', 'GR 22', 'oats'), item('a', 'GR 22', 'clay')], [item('c', 'OL 9', 'gone')]);
  const materials = of([item('oats', '', '')].map((one) => ({ ...one, document: { id: 'oats', name: 'Ground oats' } })));
  expect(lotOptions({ lots, materials, preparations: of([]), used: {} })).toEqual([
    ['a', 'GR 22, clay'],
    ['b', 'GR 22, Ground oats'],
    ['c', 'OL 9, gone'],
  ]);
});
