import { as } from '#lib/units/id';
import type { PersonId } from '#lib/units/id';

/** Stands in entries that no person made: what the program saw, and weights accepted hands-free. */
export const PROGRAM = as<PersonId>('program');
