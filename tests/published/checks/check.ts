/** One figure of the outside world, and what ours says to it. */
export interface Check {
  readonly subject: string;
  readonly quantity: string;
  readonly unit: string;
  readonly source: string;
  /** A the official text, B a transcription or reference database, C a secondary page; else computed from such, or from memory. */
  readonly grade: 'A' | 'B' | 'C' | 'computed' | 'memory';
  /** As printed there; a pair is a range that ours must lie in. */
  readonly published: number | readonly [low: number, high: number];
  readonly ours: () => number;
  /** How far ours may be from it, in its unit. */
  readonly within: number;
  /** Why the tolerance is not just the last printed digit. */
  readonly because?: string;
}

export interface Outcome {
  readonly ours: number;
  /** From the printed figure, or from the nearer end of a range; 0 inside it. */
  readonly difference: number;
  readonly passes: boolean;
}

export const outcome = ({ published, ours, within }: Check): Outcome => {
  const value = ours();
  const nearest = typeof published === 'number' ? published : Math.min(Math.max(value, published[0]), published[1]);
  const difference = value - nearest;
  // A hair for the binary of a decimal literal.
  return { ours: value, difference, passes: Math.abs(difference) <= within + 1e-12 * Math.abs(nearest) };
};

/** Many checks that share all but a few fields. */
export const checks = <Row>(rows: readonly Row[], each: (row: Row) => Check): readonly Check[] => rows.map(each);
