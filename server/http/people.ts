import { zValidator } from '@hono/zod-validator';
import { Hono } from 'hono';
import type { Context } from 'hono';
import { eraseAsk, hereAsk, personAsk, pinAsk, renameAsk } from '#lib/protocol/people';
import type { HereAnswer, PeoplePage } from '#lib/protocol/people';
import type { PersonId } from '#lib/units/id';
import { MAKER } from '../maker';
import { isPin, sealPin } from '../people/pin';
import { passOf } from '../people/who';
import type { Person, PersonRole } from '../store/people';
import { createTries } from '../tries';
import type { Tries } from '../tries';
import type { ApiDeps } from './deps';
import { makersOnly, unreadable } from './makers';
import { byOf } from './person';
import { problem } from './problem';

/** GET /api/people; a maker adds, renames, erases, sets a PIN and switches to somebody by POST. */
export const people = (deps: ApiDeps): Hono => {
  const settings = () => deps.people();
  const guesses = new Map<PersonId, Tries>();
  const triesOf = (person: PersonId): Tries => {
    const tries = guesses.get(person) ?? createTries(() => performance.now());
    guesses.set(person, tries);
    return tries;
  };
  /** Whether it is their PIN; else what to answer. */
  const wrongPin = async (c: Context, person: PersonId, typed: string | null): Promise<Response | null> => {
    const pin = settings().pinOf(person);
    if (pin === null) return null;
    const tries = triesOf(person);
    if (tries.waitMs() > 0) return waiting(c, tries.waitMs());
    if (typed !== null && (await isPin(typed, pin))) {
      tries.right();
      return null;
    }
    const wait = tries.wrong();
    return wait > 0 ? waiting(c, wait) : problem(c, 403, 'That is not their PIN.', 'Type it again.');
  };
  const found = (c: Context): Person | null =>
    settings()
      .people()
      .find(({ id, name }) => id === c.req.param('id') && name !== null) ?? null;
  const taken = (name: string, role: PersonRole, but: string | null): boolean =>
    settings()
      .people()
      .some((one) => one.id !== but && one.role === role && one.name?.toLocaleLowerCase() === name.toLocaleLowerCase());
  const page = (c: Context): Response => {
    const me = byOf(deps, c);
    return c.json({ people: settings().people(), me: me === MAKER ? null : me } satisfies PeoplePage);
  };
  return new Hono()
    .get('/', page)
    .post('/', makersOnly(deps), zValidator('json', personAsk, unreadable), async (c) => {
      const { name, role } = c.req.valid('json');
      if (taken(name, role, null)) return doubled(c, name);
      await settings().addPerson(name, byOf(deps, c), role);
      return page(c);
    })
    .post('/:id/name', makersOnly(deps), zValidator('json', renameAsk, unreadable), async (c) => {
      const person = found(c);
      const { name } = c.req.valid('json');
      if (person === null) return nobody(c);
      if (taken(name, person.role, person.id)) return doubled(c, name);
      await settings().renamePerson(person.id, name, byOf(deps, c));
      return page(c);
    })
    .post('/:id/erase', makersOnly(deps), zValidator('json', eraseAsk, unreadable), async (c) => {
      const person = found(c);
      if (person === null) return nobody(c);
      await settings().eraseName(person.id, byOf(deps, c));
      return page(c);
    })
    .post('/:id/pin', makersOnly(deps), zValidator('json', pinAsk, unreadable), async (c) => {
      const person = found(c);
      const { pin, now } = c.req.valid('json');
      if (person === null || person.role !== 'maker') return nobody(c);
      // Who sits at the bench machine itself may mend a forgotten one.
      const wrong = pin === null && now === null && deps.isHere(c) ? null : await wrongPin(c, person.id, now);
      if (wrong !== null) return wrong;
      await settings().setPin(person.id, pin === null ? null : await sealPin(pin), byOf(deps, c));
      return page(c);
    })
    .post('/:id/here', makersOnly(deps), zValidator('json', hereAsk, unreadable), async (c) => {
      const person = found(c);
      if (person === null || person.role !== 'maker') return nobody(c);
      const wrong = await wrongPin(c, person.id, c.req.valid('json').pin);
      return wrong ?? c.json({ pass: passOf(person.id, settings().pinOf(person.id)) } satisfies HereAnswer);
    });
};

const nobody = (c: Context): Response => problem(c, 404, 'Nobody of that name is known here.', 'Open the list of people again.');
const doubled = (c: Context, name: string): Response =>
  problem(c, 409, `There is a ${name} already.`, 'Take a name or initials that tell them apart.');
const waiting = (c: Context, ms: number): Response =>
  problem(c, 429, 'That PIN was guessed wrongly too often.', `Wait ${Math.ceil(ms / 1000)} seconds, then type it again.`);
