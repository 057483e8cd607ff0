import type { Journal } from '#lib/record/journal';
import type { BatchId, EntryId, InstrumentId } from '#lib/units/id';
import { fold } from '#lib/work/batch/index';
import type { BatchState, Entry } from '#lib/work/batch/index';
import type { Store } from '../store/store';

const PAGE = 1_000;

/** One batch as its own lines tell it; `null` when the journal has none of it. Throws `BrokenHistory` where they do not follow. */
export const foldBatch = async (journal: Pick<Journal, 'linesOf'>, id: BatchId): Promise<BatchState | null> =>
  fold((await journal.linesOf(id)).map((line) => JSON.parse(line.text) as Entry));

/** The batch that was being weighed when the server stopped, folded from the journal. It waits for a person's word before it goes on. */
export const armedBatch = async (store: Pick<Store, 'bench' | 'batches'>): Promise<BatchState | null> => {
  let before: string | null = null;
  do {
    const page = await store.batches.list({ before, limit: 100 });
    const armed = page.batches.find(({ status }) => status === 'weighing' || status === 'joined');
    if (armed !== undefined) return foldBatch(store.bench, armed.id as BatchId);
    before = page.next;
  } while (before !== null);
  return null;
};

/** The newest check of each scale in any batch. */
export const newestChecks = async (journal: Journal): Promise<Record<InstrumentId, EntryId>> => {
  const checks: Record<InstrumentId, EntryId> = {};
  for (let after = 0; after < journal.seq();) {
    const lines = await journal.lines(after, PAGE);
    if (lines.length === 0) break;
    for (const line of lines) {
      // Most lines are none; their text says so before anything is parsed.
      if (!line.text.includes('"kind":"scale-checked"')) continue;
      const entry = JSON.parse(line.text) as Entry;
      if (entry.kind === 'scale-checked') checks[entry.body.instrument] = entry.id;
    }
    after = lines.at(-1)?.seq ?? journal.seq();
  }
  return checks;
};

/** A batch for reading: what it came to, and every entry of its story. `null`: there is no such batch. */
export const reviewOf = async (journal: Pick<Journal, 'linesOf'>, id: BatchId): Promise<object | null> => {
  const entries = (await journal.linesOf(id)).map((line) => JSON.parse(line.text) as Entry);
  const batch = fold(entries);
  return batch === null ? null : { batch, entries };
};
