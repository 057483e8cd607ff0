import { expect, it } from 'vitest';
import { formula } from '#tests/support/formula';
import { materialsBought } from '../../../app/bars/orders/_parts/materials-bought';

it('how a material is bought can be said before any of it ever came in, and after the last of it is gone', () => {
  const goods = [{ id: 'clay', kind: 'material', name: '', pack: '500', price: '9', days: 3, perBar: null, onHand: null }] as const;
  const names = { 'sodium-hydroxide': 'Sodium hydroxide', clay: 'Clay' };
  const found = materialsBought({ onHand: { lard: 5 }, goods, names }, [formula()]).map(({ name }) => name);
  expect(found).toEqual(expect.arrayContaining(['Sodium hydroxide', 'Clay', 'lard', 'olive']));
  expect(new Set(found).size).toBe(found.length);
});
