/** The record's own value under a key that may come from outside: `constructor` finds nothing. */
export const own = <K extends string, V>(record: Readonly<Partial<Record<K, V>>>, key: K): V | undefined =>
  Object.hasOwn(record, key) ? record[key] : undefined;

/** The record without some keys. */
export const without = <K extends string, V>(record: Readonly<Record<K, V>>, drop: (key: K, value: V) => boolean): Readonly<Record<K, V>> =>
  Object.fromEntries(Object.entries(record).filter(([key, value]) => !drop(key as K, value as V))) as Record<K, V>;
