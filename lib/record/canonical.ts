import type { Json } from './journal';

/** Thrown for a value a hashed line may not hold. `path` says where it stands, for example `body.lines[2].target`. */
export class NotCanonical extends TypeError {
  readonly path: string;
  constructor(path: string, why: string) {
    super(`${path === '' ? 'the value' : path}: ${why}`);
    this.name = 'NotCanonical';
    this.path = path;
  }
}

/**
 * The JSON text of a value by RFC 8785 (JSON Canonicalization Scheme): no white space, keys in the order of their UTF-16
 * code units, strings escaped as ECMAScript's `JSON.stringify` does.
 *
 * Narrower than the RFC on purpose: numbers must be safe integers, so that a line reads the same in every language and
 * every database. Refuses, with `NotCanonical`, what would be dropped, rounded or replaced on the way: fractions, unsafe
 * integers, NaN, `undefined`, bigint, functions, holes, lone surrogates and objects that are not plain.
 */
export const canonical = (value: Json): string => {
  try {
    return write(value);
  } catch (fault) {
    throw told(fault);
  }
};

/** The members of an object as canonical text, on either side of where a further key has its place. Without braces. */
export interface Around {
  readonly before: string;
  readonly after: string;
}

/** An object's canonical text, open at the place of `key`, which it does not have itself. Refuses what `canonical` refuses. */
export const canonicalAround = (value: { readonly [key: string]: Json }, key: string): Around => {
  try {
    const keys = keysOf(value);
    const place = keys.findIndex((one) => one > key);
    const from = place < 0 ? keys.length : place;
    return { before: writeMembers(value, keys.slice(0, from)), after: writeMembers(value, keys.slice(from)) };
  } catch (fault) {
    throw told(fault);
  }
};

/** The text of the whole: members in order, those that are none left out. */
export const joinMembers = (...members: readonly string[]): string => `{${members.filter((one) => one !== '').join(',')}}`;

const told = (fault: unknown): unknown => (fault instanceof Fault ? new NotCanonical(fault.path, fault.why) : fault);

/** On its way up it gathers where it was met, so that a sound value pays nothing for its path. */
class Fault {
  path = '';
  readonly why: string;
  constructor(why: string) {
    this.why = why;
  }
  under(step: string): this {
    this.path = this.path === '' || this.path.startsWith('[') ? step + this.path : `${step}.${this.path}`;
    return this;
  }
}

const write = (value: unknown): string => {
  if (typeof value === 'string') return writeString(value);
  if (typeof value === 'number') return writeInteger(value);
  if (value === null) return 'null';
  if (typeof value === 'boolean') return value ? 'true' : 'false';
  if (typeof value === 'object') return Array.isArray(value) ? writeArray(value) : writeObject(value);
  throw new Fault(`${typeof value} has no place in a line`);
};

const writeInteger = (value: number): string => {
  if (!Number.isSafeInteger(value)) throw new Fault(`${value} is not a safe integer`);
  // RFC 8785, 3.2.2.3: negative zero is written as zero.
  return value === 0 ? '0' : String(value);
};

// Most strings are plain ASCII without anything to escape, and stand as they are.
const TO_ESCAPE = /[^ !#-[\]-~]/;
// With the `u` flag a surrogate that is half of a pair does not match: only a lone one does.
const LONE_SURROGATE = /\p{Surrogate}/u;

const writeString = (text: string): string => {
  if (!TO_ESCAPE.test(text)) return `"${text}"`;
  if (LONE_SURROGATE.test(text)) throw new Fault('a lone surrogate is not Unicode text');
  return JSON.stringify(text);
};

const writeArray = (items: readonly unknown[]): string => {
  let out = '[';
  let i = 0;
  try {
    // By number and not by iterator: a hole must be met as `undefined`.
    for (; i < items.length; i += 1) out += i === 0 ? write(items[i]) : `,${write(items[i])}`;
  } catch (fault) {
    throw fault instanceof Fault ? fault.under(`[${i}]`) : fault;
  }
  return `${out}]`;
};

const writeObject = (object: object): string => `{${writeMembers(object, keysOf(object))}}`;

const keysOf = (object: object): string[] => {
  const prototype: unknown = Object.getPrototypeOf(object);
  if (prototype !== Object.prototype && prototype !== null) throw new Fault('only plain objects have a place in a line');
  return Object.keys(object).toSorted();
};

const writeMembers = (object: object, keys: readonly string[]): string => {
  let out = '';
  let at = '';
  try {
    for (const key of keys) {
      at = key;
      out += `${out === '' ? '' : ','}${writeString(key)}:${write((object as Record<string, unknown>)[key])}`;
    }
  } catch (fault) {
    throw fault instanceof Fault ? fault.under(at) : fault;
  }
  return out;
};
