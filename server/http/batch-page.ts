import type { BatchPage } from '#lib/protocol/http';
import { as } from '#lib/units/id';
import type { Outgoing } from '../export/facts';
import type { ApiDeps } from './deps';
import { footOfLines } from './foot';
import { namesOf } from './person';

/** One batch with everything a page or a file says of it; `null`: there is no such batch. */
export const batchPageOf = async (deps: ApiDeps, id: string): Promise<Outgoing | null> => {
  const review = await deps.reviewOf(as(id));
  if (review === null) return null;
  const lines = await deps.running().store.bench.linesOf(id);
  const page: BatchPage = { ...review, people: namesOf(deps.people()), record: footOfLines(lines) };
  return { page, lines };
};
