import { canonicalAround, NotCanonical } from './canonical';
import type { Around } from './canonical';
import { isObject } from './journal';
import type { Json } from './journal';

/** Texts of values that were read back and cannot change any more, open where the salt goes. */
const written = new WeakMap<object, Around>();

/**
 * The value as its own canonical text reads, frozen to the bottom: what is used now and what any reader of the line finds later are one.
 * Its text is kept, so that sealing it does not write it again. Throws `NotCanonical` as sealing does.
 */
export const readBack = (value: Json): Json => {
  const around = aroundSalt(value);
  const back = copied(value);
  written.set(back as object, around);
  return back;
};

/** A line's members before and after its salt. Throws `NotCanonical` when the value is no object or brings a salt of its own. */
export const aroundSalt = (value: Json): Around => {
  if (!isObject(value)) throw new NotCanonical('', 'a line is an object');
  const kept = written.get(value);
  if (kept !== undefined) return kept;
  if ('salt' in value) throw new NotCanonical('salt', 'the journal adds the salt');
  return canonicalAround(value, 'salt');
};

/** What `JSON.parse` makes of a value's canonical text, without the way through the text: keys in its order, no negative zero. */
const copied = (value: Json): Json => {
  if (typeof value === 'number') return value + 0;
  if (value === null || typeof value !== 'object') return value;
  if (Array.isArray(value)) return Object.freeze(value.map(copied)) as Json;
  const copy: Record<string, Json> = {};
  for (const key of Object.keys(value).toSorted()) {
    const inner = copied((value as Readonly<Record<string, Json>>)[key] as Json);
    if (key === '__proto__') Object.defineProperty(copy, key, { value: inner, enumerable: true });
    else copy[key] = inner;
  }
  return Object.freeze(copy);
};
