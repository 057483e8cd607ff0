import { createHmac, timingSafeEqual } from 'node:crypto';
import { as } from '#lib/units/id';
import type { PersonId } from '#lib/units/id';
import { MAKER } from '../maker';
import type { KeptPin, People } from '../store/people';

/**
 * What a screen says to act as a person: their id, and where they have a PIN a mark that only who typed it was given. It stands until
 * that PIN changes, over restarts too, so that a pour is not interrupted by asking again.
 */
export const passOf = (person: PersonId, pin: KeptPin | null): string => (pin === null ? person : `${person}.${markOf(person, pin)}`);

const markOf = (person: PersonId, { salt, hash }: KeptPin): string =>
  createHmac('sha256', `${salt}${hash}`).update(person).digest('base64url');

/**
 * Who a screen acts as. Whoever says nothing, or what does not hold (any more), is the unnamed maker: never somebody else, and no
 * weight waits for it.
 */
export const personOf = (people: Pick<People, 'people' | 'pinOf'>, pass: string | null | undefined): PersonId => {
  const [id = '', mark = ''] = pass?.split('.') ?? [];
  const person = people.people().find((one) => one.id === id && one.role === 'maker' && one.name !== null);
  if (person === undefined) return MAKER;
  const pin = people.pinOf(person.id);
  return pin === null || same(mark, markOf(person.id, pin)) ? as(person.id) : MAKER;
};

/** Bytes are compared: as many letters may be more bytes. */
const same = (a: string, b: string): boolean => {
  const [one, other] = [Buffer.from(a), Buffer.from(b)];
  return one.length === other.length && timingSafeEqual(one, other);
};
