/**
 * Where a figure comes from, as a person is told it. `A` the official text, `B` a transcription or reference database, `C` a secondary
 * page; `computed` worked out from the named inputs; `memory` recalled, not seen; `practice` a rule of the trade without a source.
 */
export type Grade = 'A' | 'B' | 'C' | 'computed' | 'memory' | 'practice';

export interface Source {
  readonly text: string;
  readonly grade: Grade;
}

/** A figure with its standard uncertainty, in the same unit, and where both come from. */
export interface Estimate {
  readonly value: number;
  readonly u: number;
  readonly source: Source;
}

/** What one standard or text states as a range, in the unit its field names. */
export interface SourcedRange {
  readonly low: number;
  readonly high: number;
  readonly source: Source;
}

export interface Sourced {
  readonly value: number;
  readonly source: Source;
}

/** The source as a person reads it beside a figure: what rests on memory or on practice alone says so first. */
export const sourceLine = ({ text, grade }: Source): string => {
  if (grade === 'memory') return `from memory: ${text}`;
  if (grade === 'practice') return `common practice, no source: ${text}`;
  return grade === 'computed' ? `computed: ${text}` : text;
};
