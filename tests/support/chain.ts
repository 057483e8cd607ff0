import type { JournalLine } from '#lib/record/journal';
import { EMPTY, seal, SALT_BYTES } from '#lib/record/seal';
import type { Head } from '#lib/record/seal';

/** A sound chain of `length` small lines, the same at every call. */
export const chainOf = (length: number): JournalLine[] => {
  const lines: JournalLine[] = [];
  let head: Head = EMPTY;
  for (let n = 1; n <= length; n += 1) {
    const line = seal(head, { id: `e${n}`, n }, new Uint8Array(SALT_BYTES).fill(n));
    lines.push(line);
    head = line;
  }
  return lines;
};

/** The element at an index that must be there. */
export const at = <T>(items: readonly T[], index: number): T => {
  const item = items[index];
  if (item === undefined) throw new RangeError(`nothing at ${index} of ${items.length}`);
  return item;
};
