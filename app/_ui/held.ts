/** A browser without storage keeps nothing; the page goes on. */
const storage = (): Storage | null => {
  try {
    return globalThis.localStorage;
  } catch {
    return null;
  }
};

const PROBE = 'potwatch.probe';

/** Whether this screen can hold anything. */
export const canHold = (): boolean => {
  try {
    storage()?.setItem(PROBE, PROBE);
    return storage()?.getItem(PROBE) === PROBE;
  } catch {
    return false;
  }
};

/** What this screen holds of one kind, by id, so that a page closed or a machine gone loses nothing that was typed. */
export interface Held<T> {
  readonly read: (id: string) => T | null;
  readonly write: (id: string, value: T) => void;
  readonly drop: (id: string) => void;
  readonly all: () => readonly (readonly [id: string, value: T])[];
}

/** @param parse `null` for what is none of this kind: another program's, or cut off */
export const heldOf = <T>(prefix: string, parse: (value: unknown) => T | null): Held<T> => {
  const parsed = (text: string | null): T | null => {
    if (text === null) return null;
    try {
      return parse(JSON.parse(text));
    } catch {
      return null;
    }
  };
  return {
    read: (id) => parsed(storage()?.getItem(prefix + id) ?? null),
    write(id, value) {
      try {
        storage()?.setItem(prefix + id, JSON.stringify(value));
      } catch {
        // A full storage: what is typed is on the page still.
      }
    },
    drop: (id) => storage()?.removeItem(prefix + id),
    all() {
      const held = storage();
      if (held === null) return [];
      return Object.keys(held).flatMap((key) => {
        const value = key.startsWith(prefix) ? parsed(held.getItem(key)) : null;
        return value === null ? [] : [[key.slice(prefix.length), value] as const];
      });
    },
  };
};
