/** Where something stands in a JSON text, from 1. */
export interface TextPlace {
  readonly line: number;
  readonly column: number;
}

const placeAt = (text: string, offset: number): TextPlace => {
  const before = text.slice(0, offset);
  const line = before.split('\n').length;
  return { line, column: offset - before.lastIndexOf('\n') };
};

const SPACE = /[ \t\n\r]*/y;
const STRING = /"(?:[^"\\]|\\.)*"/sy;
const PLAIN = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null/y;
const DEEPEST = 200;

/** Walks a JSON text, telling where each value starts. Throws a `Broken` with the offset of what is no JSON. */
export class Broken extends Error {
  readonly offset: number;
  constructor(offset: number) {
    super(`no JSON at ${offset}`);
    this.offset = offset;
  }
}

const match = (pattern: RegExp, text: string, at: number): string | null => {
  pattern.lastIndex = at;
  return pattern.exec(text)?.[0] ?? null;
};

/** The text of a string, its escapes and all; a raw line break or a bad escape is none. */
const stringAt = (text: string, at: number): string => {
  const found = match(STRING, text, at);
  if (found === null) throw new Broken(at);
  try {
    JSON.parse(found);
  } catch {
    throw new Broken(at);
  }
  return found;
};

const skip = (text: string, at: number): number => at + (match(SPACE, text, at)?.length ?? 0);

type Seen = (path: readonly (string | number)[], offset: number) => void;

/** @returns the offset after the value */
const value = (text: string, start: number, path: readonly (string | number)[], seen: Seen): number => {
  const at = skip(text, start);
  if (path.length > DEEPEST) throw new Broken(at);
  seen(path, at);
  const sign = text[at];
  if (sign === '{') return members(text, at, path, seen);
  if (sign === '[') return items(text, at, path, seen);
  const whole = sign === '"' ? stringAt(text, at) : match(PLAIN, text, at);
  if (whole === null || whole === '') throw new Broken(at);
  return at + whole.length;
};

const items = (text: string, open: number, path: readonly (string | number)[], seen: Seen): number => {
  let at = skip(text, open + 1);
  if (text[at] === ']') return at + 1;
  for (let index = 0; ; index += 1) {
    at = skip(text, value(text, at, [...path, index], seen));
    if (text[at] === ']') return at + 1;
    if (text[at] !== ',') throw new Broken(at);
    at += 1;
  }
};

const members = (text: string, open: number, path: readonly (string | number)[], seen: Seen): number => {
  let at = skip(text, open + 1);
  if (text[at] === '}') return at + 1;
  for (;;) {
    at = skip(text, at);
    const key = stringAt(text, at);
    const colon = skip(text, at + key.length);
    if (text[colon] !== ':') throw new Broken(colon);
    at = skip(text, value(text, colon + 1, [...path, JSON.parse(key) as string], seen));
    if (text[at] === '}') return at + 1;
    if (text[at] !== ',') throw new Broken(at);
    at += 1;
  }
};

/** Where the text stops being JSON; `null` when it is. */
export const brokenAt = (text: string): TextPlace | null => {
  try {
    const end = skip(
      text,
      value(text, 0, [], () => {}),
    );
    return end === text.length ? null : placeAt(text, end);
  } catch (error) {
    if (error instanceof Broken) return placeAt(text, error.offset);
    throw error;
  }
};

/** Where the value of a path starts, or the nearest thing around it that is there. */
export const placeOf = (text: string, path: readonly PropertyKey[]): TextPlace => {
  let [best, deepest] = [0, -1];
  value(text, 0, [], (at, offset) => {
    if (at.length > deepest && at.length <= path.length && at.every((step, i) => step === path[i])) [best, deepest] = [offset, at.length];
  });
  return placeAt(text, best);
};
