import { NotCanonical } from './canonical';
import type { Append, JournalLine } from './journal';
import { PORTABLE, seal } from './seal';
import type { Head, Sha256 } from './seal';

/**
 * Seals what one append brings, in order, each line with a fresh salt. What stands beside a value (id, batch, version, kind)
 * must be what the value itself says, because only the value is sealed; else `NotCanonical`.
 */
export const sealAll = (head: Head, entries: Append['entries'], salt: () => Uint8Array, sha: Sha256 = PORTABLE): readonly JournalLine[] => {
  const lines: JournalLine[] = [];
  let at = head;
  for (const entry of entries) {
    checkLabels(entry);
    const line = seal(at, entry.value, salt(), sha);
    lines.push(line);
    at = line;
  }
  return lines;
};

/** What a line says of itself. */
export interface Labels {
  readonly id: string;
  readonly batch: string | null;
  readonly version: number | null;
}

/** A line's value; `null` when the text is no JSON. */
export const parsed = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
};

/** The labels in a line's value, to hold what is stored beside it against; `null` when it is no object with an id. */
export const labelsOf = (value: unknown): (Labels & { readonly kind: unknown }) | null => {
  if (typeof value !== 'object' || value === null) return null;
  const { id, batch = null, version = null, kind } = value as Record<string, unknown>;
  if (typeof id !== 'string') return null;
  if (batch !== null && typeof batch !== 'string') return null;
  if (version !== null && typeof version !== 'number') return null;
  return { id, batch, version, kind };
};

const checkLabels = (entry: Append['entries'][number]): void => {
  const said = labelsOf(entry.value);
  if (said === null) throw new NotCanonical('id', 'a line says its id, and its batch and version when it has them');
  for (const label of ['id', 'batch', 'version', 'kind'] as const) {
    if (said[label] !== entry[label])
      throw new NotCanonical(label, `the value says ${String(said[label])}, beside it stands ${String(entry[label])}`);
  }
};
