import type { Context } from 'hono';
import { PASS_HEADER } from '#lib/protocol/people';
import type { PersonId } from '#lib/units/id';
import { personOf } from '../people/who';
import type { People } from '../store/people';
import type { ApiDeps } from './deps';

/** Who asks, by the pass their screen sends. */
export const byOf = (deps: Pick<ApiDeps, 'people'>, c: Context): PersonId => personOf(deps.people(), c.req.header(PASS_HEADER));

/** Everyone's name by id. */
export const namesOf = (people: Pick<People, 'people'>): Readonly<Record<string, string | null>> =>
  Object.fromEntries(people.people().map(({ id, name }) => [id, name]));
