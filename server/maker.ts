import { as } from '#lib/units/id';
import type { PersonId } from '#lib/units/id';

/** Stands for whoever weighs, writes and binds here until people have names. */
export const MAKER = as<PersonId>('maker');
