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
export const canonical = (value: Json): string => write(value, '');

const write = (value: unknown, path: string): string => {
  if (value === null) return 'null';
  if (typeof value === 'string') return writeString(value, path);
  if (typeof value === 'number') return writeInteger(value, path);
  if (typeof value === 'boolean') return value ? 'true' : 'false';
  if (typeof value === 'object') return Array.isArray(value) ? writeArray(value, path) : writeObject(value, path);
  throw new NotCanonical(path, `${typeof value} has no place in a line`);
};

const writeInteger = (value: number, path: string): string => {
  if (!Number.isSafeInteger(value)) throw new NotCanonical(path, `${value} is not a safe integer`);
  // RFC 8785, 3.2.2.3: negative zero is written as zero.
  return value === 0 ? '0' : String(value);
};

// With the `u` flag a surrogate that is half of a pair does not match: only a lone one does.
const LONE_SURROGATE = /\p{Surrogate}/u;

const writeString = (text: string, path: string): string => {
  if (LONE_SURROGATE.test(text)) throw new NotCanonical(path, 'a lone surrogate is not Unicode text');
  return JSON.stringify(text);
};

const writeArray = (items: readonly unknown[], path: string): string => {
  let out = '[';
  for (let i = 0; i < items.length; i += 1) {
    if (i > 0) out += ',';
    out += write(items[i], `${path}[${i}]`);
  }
  return `${out}]`;
};

const writeObject = (object: object, path: string): string => {
  const prototype: unknown = Object.getPrototypeOf(object);
  if (prototype !== Object.prototype && prototype !== null) throw new NotCanonical(path, 'only plain objects have a place in a line');
  let out = '{';
  for (const key of Object.keys(object).toSorted()) {
    if (out.length > 1) out += ',';
    const inner = path === '' ? key : `${path}.${key}`;
    out += `${writeString(key, inner)}:${write((object as Record<string, unknown>)[key], inner)}`;
  }
  return `${out}}`;
};
