import { randomFillSync } from 'node:crypto';

/** Drawn from the system at once: a salt per line would otherwise be a call each, in the middle of a commit. */
const POOL = 4096;

/** The system's random bytes, each handed out once and wiped from the pool. */
export const pooledRandom = (): ((bytes: number) => Uint8Array) => {
  const pool = new Uint8Array(POOL);
  let used = POOL;
  return (bytes) => {
    if (bytes > POOL) return randomFillSync(new Uint8Array(bytes));
    if (used + bytes > POOL) {
      randomFillSync(pool);
      used = 0;
    }
    const taken = pool.slice(used, used + bytes);
    pool.fill(0, used, used + bytes);
    used += bytes;
    return taken;
  };
};
