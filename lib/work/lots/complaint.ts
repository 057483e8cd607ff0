import * as z from 'zod/mini';
import { date, id, name, note } from '../formula/schema/words';
import { oneOf } from '../words';

/** What somebody said was wrong with bars, and what was done. Who said it is not here: names stand where they can be erased. */
export interface Complaint {
  readonly id: string;
  /** Mark on the bar, or of its batch. */
  readonly mark: string;
  readonly batch: string;
  /** Other batches that bear the same mark: it may be of any of them. */
  readonly also?: readonly string[];
  /** No bars bear that mark: it was kept as it was read, of the whole batch. */
  readonly isUnknown?: boolean;
  readonly day: string;
  readonly what: string;
  readonly action: string;
  readonly reaction: 'none' | 'slight' | 'serious';
  /** Marks of the bar lots that were held by it. */
  readonly held: readonly string[];
}

export const complaintSchema: z.ZodMiniType<Complaint> = z.strictObject({
  id,
  mark: name.check(z.minLength(1)),
  batch: id,
  also: z.exactOptional(z.array(id)),
  isUnknown: z.exactOptional(z.boolean()),
  day: date,
  what: note.check(z.minLength(1)),
  action: note,
  reaction: oneOf<Complaint['reaction']>({ none: true, slight: true, serious: true }),
  held: z.array(name),
});
