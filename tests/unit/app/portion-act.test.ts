import { expect, it } from 'vitest';
import { portionActFor } from '../../../app/bench/messages-pour';

it('names what is set down: the pot or jug that is weighed by its loss, not what it is poured into', () => {
  expect(portionActFor('set-down', null)).toBe('Set it on the scale');
  expect(portionActFor('set-down', 'pot')).toBe('Set the pot on the scale');
  expect(portionActFor('set-down', 'part:green')).toBe('Set its jug on the scale');
  expect(portionActFor('stands', 'pot')).toBe('Zeroed. Pour');
});
