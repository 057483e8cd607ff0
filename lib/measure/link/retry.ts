/** First wait after a loss, ms: a plug that only wobbled is back at once. */
const FIRST_MS = 100;
/** Longest wait, ms. With opening, proof and settling behind it a replugged instrument is back within three seconds. */
const LONGEST_MS = 1200;
/** Parts of the wait by which instruments differ, so that several lost by one hub do not knock together. */
const JITTER = 0.1;

/** Wait before opening attempt `attempt`, counted from 0 since the last reading. The same for the same instrument and attempt. */
export const retryDelay = (instrument: string, attempt: number): number => {
  const wait = Math.min(FIRST_MS * 2 ** attempt, LONGEST_MS);
  return Math.round(wait * (1 + JITTER * (2 * share(`${instrument} ${attempt}`) - 1)));
};

/** Silence before the port is closed and opened anew, ms; doubles with every reopening that brought no reading. */
const REOPEN_MS = 6_000;
const LONGEST_REOPEN_MS = 60_000;

/** Longer than it takes a probe that speaks once a second to prove itself. `fruitless`: reopenings since the last reading. */
export const reopenAfter = (fruitless: number): number => Math.min(REOPEN_MS * 2 ** fruitless, LONGEST_REOPEN_MS);

/** A number in [0, 1) from a text: FNV-1a (Fowler, Noll, Vo; 32 bits). */
const share = (text: string): number => {
  let hash = 0x811c9dc5;
  for (let at = 0; at < text.length; at += 1) hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193);
  return (hash >>> 0) / 2 ** 32;
};
