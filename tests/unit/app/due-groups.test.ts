import { expect, it } from 'vitest';
import type { BarsRow } from '#lib/protocol/bars';
import { groupedDues } from '../../../app/today/_parts/grouped';
import { messages } from '../../../app/today/messages';

const row = (id: string, place: string | null): BarsRow =>
  ({ id, place: place === null ? null : { name: place, since: 0 }, mould: { name: 'short loaf' } }) as unknown as BarsRow;

it('has photographs of one place in one group, and what is done at a lot alone for itself', () => {
  const groups = groupedDues([
    { row: row('a', 'door'), what: 'photo', before: null },
    { row: row('b', null), what: 'cut', before: null },
    { row: row('c', 'window'), what: 'photo', before: null },
    { row: row('f', null), what: 'unmould', before: 9 },
    { row: row('g', null), what: 'cut', before: 5 },
    { row: row('d', 'door'), what: 'photo', before: null },
    { row: row('d', 'door'), what: 'weigh', before: null },
    { row: row('e', null), what: 'cut', before: null },
  ]);
  expect(groups.map(({ what, place, rows }) => [what, place, rows.map(({ id }) => id)])).toEqual([
    // What has to be cut by an hour comes first, the soonest of it before the others.
    ['cut', 'short loaf', ['g']],
    ['unmould', 'short loaf', ['f']],
    ['cut', 'short loaf', ['b']],
    ['cut', 'short loaf', ['e']],
    ['weigh', 'door', ['d']],
    ['photo', 'door', ['a', 'd']],
    ['photo', 'window', ['c']],
  ]);
});

it('opens the page with how much of each there is, in the order it is done; to be ready is no work', () => {
  const { lead } = messages.due;
  expect(lead(['photo', 'cut', 'photo', 'ready'])).toBe('One lot to cut and two to photograph.');
  expect(lead(['unmould', 'unmould', 'weigh'])).toBe('Two lots to take out of their moulds and one to weigh.');
  expect(lead(['ready'])).toBe('');
});
