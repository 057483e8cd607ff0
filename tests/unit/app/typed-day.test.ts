import { expect, it } from 'vitest';
import { gather } from '../../../app/_ui/kept/typed';

it('a typed day is kept as documents write it, and asked about where it may be two', () => {
  const form = gather({ plain: '25.12.2026', either: '3/11/2026', none: 'soon', empty: '' });
  expect(['plain', 'either', 'none', 'empty'].map((key) => form.day(key, 'bad'))).toEqual(['2026-12-25', '3/11/2026', 'soon', '']);
  expect(form.errors).toEqual({
    either: 'Is that 2026-11-03 or 2026-03-11 (year-month-day)? Write the one you mean.',
    none: 'bad',
    empty: 'bad',
  });
});
