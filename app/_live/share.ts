/**
 * The newer of two plain values, keeping every part of the older one that says the same. A live frame arrives up to 25 times a second
 * and mostly repeats itself; with its unchanged parts shared, a selector of an object or a list stays the same object and nothing that
 * reads it is drawn again (a selector that returns a new object each time would redraw without end).
 */
export const share = <T>(older: unknown, newer: T): T => {
  if (Object.is(older, newer)) return newer;
  if (Array.isArray(newer)) return Array.isArray(older) ? shareList(older, newer) : newer;
  if (isPlain(newer) && isPlain(older)) return shareObject(older, newer);
  return newer;
};

const shareList = <T extends readonly unknown[]>(older: readonly unknown[], newer: T): T => {
  const shared = newer.map((item, index) => share(older[index], item));
  const same = older.length === shared.length && shared.every((item, index) => Object.is(item, older[index]));
  return (same ? older : shared) as unknown as T;
};

const shareObject = <T extends object>(older: Readonly<Record<string, unknown>>, newer: T): T => {
  const entries = Object.entries(newer).map(([key, value]) => [key, share(older[key], value)] as const);
  const same =
    entries.length === Object.keys(older).length && entries.every(([key, value]) => key in older && Object.is(value, older[key]));
  return (same ? older : Object.fromEntries(entries)) as T;
};

const isPlain = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
