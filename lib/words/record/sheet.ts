import type { Sentence } from '../sentence';

/**
 * A record as it is laid on paper, before anybody knows which paper: what stands where, in which voice, as text already in the reader's
 * units. Drawn as PDF by the server; whoever wants it as plain text walks the same blocks.
 */
export interface RecordSheet {
  readonly title: string;
  readonly mark: string;
  /** What must be seen first: that it can never pass for a real record. `null` for a real one. */
  readonly warning: string | null;
  readonly facts: readonly { readonly name: string; readonly said: Sentence }[];
  readonly blocks: readonly Block[];
  readonly foot: RecordEnd;
}

export type Block =
  | TableBlock
  /** Two short tables beside one another, read one after the other. */
  | { readonly kind: 'pair'; readonly tables: readonly [TableBlock, TableBlock] }
  | { readonly kind: 'told'; readonly title: string; readonly note: string; readonly events: readonly ToldEvent[] }
  /** Lines to be written on by hand; each line a row of names with room beside them. */
  | { readonly kind: 'by-hand'; readonly title: string; readonly lines: readonly (readonly string[])[] };

export interface TableBlock {
  readonly kind: 'table';
  readonly title: string;
  /** What the table is about, in a line below its title; empty for none. */
  readonly note: string;
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
  readonly total: Row | null;
  /** Half the width of the bars' scale, in tolerances; `null` in a table without bars. */
  readonly bars: number | null;
}

export interface Column {
  readonly name: string;
  /** Below the name; empty for none. */
  readonly unit: string;
  readonly figures: boolean;
  /** Part of the width, of the sum of all parts. */
  readonly part: number;
}

export interface Row {
  readonly cells: readonly Sentence[];
  /** How far the line stood from its target, in tolerances; `null`: no bar. */
  readonly bar: number | null;
  /** Crossed out: drawn through, still read. */
  readonly crossed: boolean;
}

export interface ToldEvent {
  readonly letter: string | null;
  readonly at: string;
  readonly by: string;
  readonly head: Sentence;
  readonly rest: Sentence;
}

/** The end of the record: what ties the paper to the journal. */
export interface RecordEnd {
  /** The link of the batch's newest line, hex, in groups to be compared by eye. */
  readonly hash: string;
  /** The same in words, to be read out; empty for none. */
  readonly spoken: string;
  /** Text of the QR code; empty for none. */
  readonly code: string;
  readonly sentences: readonly string[];
}

/** Plain text of a sentence. */
export const plain = (sentence: Sentence): string => sentence.map((piece) => (typeof piece === 'string' ? piece : piece.text)).join('');
