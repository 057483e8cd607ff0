import type { BatchState } from '#lib/work/batch/index';
import { partsMade } from '#lib/work/batch/pouring/amounts';
import { partSource, type Source } from '#lib/work/batch/pouring/types';
import { pourWords as words } from '../messages-pour';

/** What a source is called: the pot, or its part. */
export const sourceText = (batch: BatchState, source: Source): string =>
  source === 'pot' ? words.pot : (partsMade(batch).find(({ id }) => partSource(id) === source)?.name ?? source);

export const sourcesText = (batch: BatchState, sources: readonly Source[]): string =>
  words.byTurns(sources.map((one) => sourceText(batch, one)));
