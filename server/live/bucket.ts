/** A bucket of tokens: so many messages at once, so many a second after that. */
export interface Bucket {
  take(): boolean;
  /** Messages refused, less those taken since: who keeps sending too fast gets further and further, though some are taken between. */
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
      refused = Math.max(0, refused - 1);
      return true;
    },
    refused: () => refused,
  };
};
