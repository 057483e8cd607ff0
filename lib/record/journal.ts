/** A value that RFC 8785 can write and a hash can rest on: integers, strings, booleans, null, arrays, objects. No fractions. */
export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

export const isObject = (value: Json): value is { readonly [key: string]: Json } =>
  value !== null && typeof value === 'object' && !Array.isArray(value);

/** One line of a journal as stored. `text` is the RFC 8785 bytes that were hashed; nothing is ever re-serialised to verify. */
export interface JournalLine {
  /** From 1, without gaps, over the whole journal. */
  readonly seq: number;
  readonly text: string;
  /** SHA-256 of `text`, hex. */
  readonly leaf: string;
  /** SHA-256 of previous link (32 bytes; zeros before the first) followed by leaf (32 bytes), hex. Kept outside the line. */
  readonly link: string;
  /** What was hashed is gone for good and `text` only stands in for it: the leaf is what is left to prove. */
  readonly withdrawn?: true;
}

/** What one decision writes, in one transaction. */
export interface Append {
  readonly batch: string | null;
  readonly entries: readonly {
    readonly id: string;
    readonly batch: string | null;
    readonly version: number | null;
    readonly kind: string;
    readonly value: Json;
  }[];
  /** Stored with the entries, so that a retry gets the first answer. Unique. An intent with no entries (a refusal) may be stored too. */
  readonly intent: { readonly id: string; readonly answer: Json } | null;
  readonly blobs: readonly { readonly sha256: string; readonly kind: string; readonly bytes: Uint8Array }[];
}

/** An entry as an append takes it: itself, and beside it what it says of itself. */
export const labelled = (entry: Omit<Append['entries'][number], 'value'>): Append['entries'][number] => {
  const { id, batch, version, kind } = entry;
  return { id, batch, version, kind, value: entry };
};

/** Thrown by `append` when the same intent id stands already: the caller answers with what is stored. */
export class RepeatedIntent extends Error {
  readonly answer: Json;
  constructor(answer: Json) {
    super('this intent was answered before');
    this.name = 'RepeatedIntent';
    this.answer = answer;
  }
}

/** Thrown by every write once damage was found: writing stops, reading goes on. */
export class JournalReadOnly extends Error {
  constructor(why: string, cause?: unknown) {
    super(why, cause === undefined ? undefined : { cause });
    this.name = 'JournalReadOnly';
  }
}

/** One journal, one writer. `append` resolves only after the commit is on disk. */
export interface Journal {
  readonly name: string;
  /** Newest sequence number; 0 when empty. */
  seq(): number;
  /** Newest link, hex. */
  link(): string;
  append(what: Append): Promise<readonly JournalLine[]>;
  /** Lines with seq > `after`, in order. */
  lines(after: number, limit: number): Promise<readonly JournalLine[]>;
  linesOf(batch: string): Promise<readonly JournalLine[]>;
  answerTo(intent: string): Promise<Json | null>;
}
