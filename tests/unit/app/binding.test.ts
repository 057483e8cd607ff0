import { expect, it } from 'vitest';
import { bindingOf, EMPTY, OTHER } from '../../../app/setup/_parts/binding';
import { as } from '#lib/units/id';

it('what is bound to a place replaces what stands there, never what has moved away from it', () => {
  const typed = { ...EMPTY, port: OTHER, path: '/dev/a' };
  const first = bindingOf(typed, []);
  if (!first.ok) throw new Error('refused');
  expect(first.config.id).toBe('scale-main');
  expect(bindingOf(typed, [first.config])).toMatchObject({ config: { id: 'scale-main' } });
  const moved = { ...first.config, id: as<typeof first.config.id>('scale-main'), kind: 'scale', role: 'fine' } as typeof first.config;
  expect(bindingOf(typed, [moved])).toMatchObject({ config: { id: 'scale-main-2', role: 'main' } });
});
