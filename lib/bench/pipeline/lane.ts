import type { Journal, JournalLine } from '#lib/record/journal';
import type { RecordLane } from '#lib/protocol/lanes';
import type { BatchState } from '#lib/work/batch/index';
import type { Commit } from '../mailbox';

/** The lines a commit adds, for a page that has everything before them; those of a new batch are all there are. */
export const laneOfCommit = ({ from, seq, lines, before, batch }: Commit): RecordLane => ({
  batch: batch.id,
  from: before === null ? 0 : from,
  seq,
  lines: textsOf(lines),
});

/** Lines of the batch at the bench after a sequence number; all of them, `from` 0, when the asker has another batch. */
export const laneAfter = async (
  journal: Pick<Journal, 'linesOf' | 'seq'>,
  batch: BatchState | null,
  asked: string | null,
  after: number,
): Promise<RecordLane> => {
  const seq = journal.seq();
  if (batch === null) return { batch: null, from: 0, seq, lines: [] };
  const from = asked === batch.id && after <= seq ? after : 0;
  const lines = await journal.linesOf(batch.id);
  return { batch: batch.id, from, seq, lines: textsOf(lines.filter((line) => line.seq > from && line.seq <= seq)) };
};

const textsOf = (lines: readonly JournalLine[]): readonly string[] => lines.map((line) => line.text);
