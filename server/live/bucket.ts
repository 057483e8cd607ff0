/** A bucket of tokens: so many messages at once, so many a second after that. */
export interface Bucket {
  take(): boolean;
  /** Messages refused one after another. */
  refused(): number;
}

export const createBucket = (now: () => number, size: number, perSecond: number): Bucket => {
  let level = size;
  let at = now();
  let refused = 0;
  return {
    take() {
      level = Math.min(size, level + ((now() - at) / 1000) * perSecond);
      at = now();
      if (level < 1) {
        refused += 1;
        return false;
      }
      level -= 1;
      refused = 0;
      return true;
    },
    refused: () => refused,
  };
};
