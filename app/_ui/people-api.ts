import * as z from 'zod/mini';
import type { HereAnswer, PeoplePage, PersonRow } from '#lib/protocol/people';
import { prefer } from '../_live/preferences';
import { ask } from './api';
import type { Answer } from './api';

const OUTLINE = z.looseObject({
  people: z.array(z.looseObject({ id: z.string(), role: z.enum(['maker', 'buyer']), name: z.nullable(z.string()), pin: z.boolean() })),
  me: z.nullable(z.string()),
});
const HERE = z.looseObject({ pass: z.string() });

const post = (path: string, body: unknown): Promise<Answer<PeoplePage>> => ask(OUTLINE, `/api/people${path}`, body);

/** People the workshop has named. Nothing throws. */
export const peopleApi = {
  list: (): Promise<Answer<PeoplePage>> => ask(OUTLINE, '/api/people'),
  add: (name: string, role: PersonRow['role']) => post('', { name, role }),
  rename: (id: string, name: string) => post(`/${id}/name`, { name }),
  erase: (id: string) => post(`/${id}/erase`, { erase: 'name' }),
  pin: (id: string, pin: string | null, now: string | null) => post(`/${id}/pin`, { pin, now }),
  /** From now on this screen acts as them. */
  async switchTo(id: string, pin: string | null): Promise<Answer<HereAnswer>> {
    const answer = await ask<HereAnswer>(HERE, `/api/people/${id}/here`, { pin });
    if (answer.ok) prefer({ pass: answer.value.pass });
    return answer;
  },
  /** Nobody in particular acts on this screen. */
  leave: (): void => prefer({ pass: null }),
} as const;

/** Who may act: makers that still have a name. */
export const makersOf = ({ people }: PeoplePage): readonly (PersonRow & { readonly name: string })[] =>
  people.flatMap((one) => (one.role === 'maker' && one.name !== null ? [{ ...one, name: one.name }] : []));
