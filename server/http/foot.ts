import type { RecordFoot } from '#lib/protocol/http';
import type { JournalLine } from '#lib/record/journal';
import type { ApiDeps } from './deps';

/** Where a batch or a bar lot stands in the journal. */
export const footOf = async (deps: Pick<ApiDeps, 'running'>, stream: string): Promise<RecordFoot> => {
  return footOfLines(await deps.running().store.bench.linesOf(stream));
};

export const footOfLines = (lines: readonly JournalLine[]): RecordFoot => {
  const newest = lines.at(-1);
  return { entries: lines.length, seq: newest?.seq ?? 0, link: newest?.link ?? '' };
};
