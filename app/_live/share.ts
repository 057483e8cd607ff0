/**
 * The newer of two plain values, keeping every part of the older one that says the same. A live frame arrives up to 25 times a second
 * and mostly repeats itself; with its unchanged parts shared, a selector of an object or a list stays the same object and nothing that
 * reads it is drawn again (a selector that returns a new object each time would redraw without end). `newer` is taken over: its parts are
 * replaced in place, so that a frame that repeats itself makes nothing new.
 */
export const share = <T>(older: unknown, newer: T): T => {
  if (Object.is(older, newer)) return newer;
  if (Array.isArray(newer)) return Array.isArray(older) ? shareList(older, newer) : newer;
  if (isPlain(newer) && isPlain(older)) return shareObject(older, newer);
  return newer;
};

const shareList = <T extends unknown[]>(older: readonly unknown[], newer: T): T => {
  let same = older.length === newer.length;
  for (let index = 0; index < newer.length; index += 1) {
    newer[index] = share(older[index], newer[index]);
    same &&= Object.is(newer[index], older[index]);
  }
  return (same ? older : newer) as T;
};

const shareObject = <T extends Record<string, unknown>>(older: Readonly<Record<string, unknown>>, newer: T): T => {
  const keys = Object.keys(newer) as (keyof T & string)[];
  let same = keys.length === Object.keys(older).length;
  for (const key of keys) {
    newer[key] = share(older[key], newer[key]);
    same &&= key in older && Object.is(newer[key], older[key]);
  }
  return (same ? older : newer) as T;
};

const isPlain = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null && !Array.isArray(value);
