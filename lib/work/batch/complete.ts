import type { Draft, Entry, EntryHead } from './entries';

/** Thrown where something would be entered that cannot be hashed the same everywhere; it says where. */
export class NotCanonical extends TypeError {
  constructor(path: string, what: string) {
    super(`${path} is ${what}; entries hold whole numbers, text, true, false, null, lists and plain objects`);
    this.name = 'NotCanonical';
  }
}

/** Half of a surrogate pair: it has no UTF-8, so no hash. */
const HALF = /\p{Surrogate}/u;

const fault = (value: unknown): string | null => {
  if (value === null || typeof value === 'boolean') return null;
  if (typeof value === 'string') return HALF.test(value) ? 'text with half a character' : null;
  if (typeof value === 'number') return Number.isSafeInteger(value) && !Object.is(value, -0) ? null : `the number ${value}`;
  if (typeof value !== 'object') return typeof value;
  if (Array.isArray(value)) return null;
  const proto: unknown = Object.getPrototypeOf(value);
  return proto === Object.prototype || proto === null ? null : 'no plain object';
};

const assertCanonical = (value: unknown, path: string): void => {
  const what = fault(value);
  if (what !== null) throw new NotCanonical(path, what);
  if (typeof value === 'object' && value !== null) {
    for (const [key, inner] of Object.entries(value)) assertCanonical(inner, `${path}.${key}`);
  }
};

/**
 * A draft with its head: the entry as it is stored. Throws `NotCanonical` when a number is not whole (monotonic time included)
 * or a value has no RFC 8785 form of its own, before anything is written.
 */
export const toEntry = (draft: Draft, head: EntryHead): Entry => {
  const entry = { ...head, kind: draft.kind, body: draft.body } as Entry;
  assertCanonical(entry, draft.kind);
  return entry;
};
