interface Weight {
  readonly net: number;
  /** Anything but `null`: crossed out. */
  readonly struck: unknown;
}

/** How far a line stood from its target when a weight that was later crossed out had just been taken, in tolerances. */
export const crossedOutAway = (contributions: readonly Weight[], target: number, tolerance: number): readonly number[] =>
  contributions.flatMap(({ struck, net }, at) => {
    if (struck === null) return [];
    const before = contributions.slice(0, at).reduce((sum, one) => sum + (one.struck === null ? one.net : 0), 0);
    return [(before + net - target) / tolerance];
  });
