import { stoppedBy } from '#lib/bench/hand';
import type { Stopped } from '#lib/bench/hand';
import type { Journal, JournalLine } from '#lib/record/journal';
import type { BatchId, EntryId, InstrumentId } from '#lib/units/id';
import { isBarsId } from '#lib/work/bars/index';
import { fold } from '#lib/work/batch/index';
import type { BatchState, Entry } from '#lib/work/batch/index';
import { review } from '#lib/work/batch/review';
import type { BatchReview } from '#lib/work/batch/review';
import { upcastLines } from '#lib/work/batch/upcast';
import { StoreProblem } from '../store/problem';
import { unreadableStream } from '../store/unreadable-stream';
import type { Store } from '../store/store';

const PAGE = 1_000;

/** The entries of one batch. Throws `StoreProblem` when a line is not one this program can read: nothing is concluded from the others. */
const entriesOf = async (journal: Pick<Journal, 'linesOf'>, id: BatchId): Promise<readonly Entry[]> => {
  // Bars of the same journal are no batch, whatever id is asked for.
  if (isBarsId(id)) return [];
  const read = upcastLines((await journal.linesOf(id)).map((line) => line.text));
  if (read.ok) return read.entries;
  throw unreadableStream(`batch ${id}`, read.at, read.failure);
};

/** One batch as its own lines tell it; `null` when the journal has none of it. Throws `StoreProblem` or `BrokenHistory` when it cannot be told. */
export const foldBatch = async (journal: Pick<Journal, 'linesOf'>, id: BatchId): Promise<BatchState | null> =>
  fold(await entriesOf(journal, id));

/** The batch that was being weighed when the server stopped, folded from the journal. It waits for a person's word before it goes on. */
export const armedBatch = async (store: Pick<Store, 'bench' | 'batches'>): Promise<BatchState | null> => {
  const newest = await Promise.all(
    (['weighing', 'joined'] as const).map(async (status) => (await store.batches.list({ before: null, limit: 1, status })).batches[0]),
  );
  const [armed] = newest.filter((row) => row !== undefined).toSorted((a, b) => b.startedWall - a.startedWall);
  return armed === undefined ? null : foldBatch(store.bench, armed.id as BatchId);
};

/** What a bench knows from batches before this one. */
export interface Remembered {
  /** The newest check of each scale in any batch. */
  readonly checks: Record<InstrumentId, EntryId>;
  /** Pours that ended by the cue, oldest first: the newest thousand. */
  readonly stops: readonly Stopped[];
}

const STOPS_KEPT = 1_000;
/** Newest lines in which stops are looked for, so that a start does not read ten thousand batches: some two hundred of them. */
const STOPS_WITHIN = 50_000;

/**
 * `known`: the checks, where they are kept beside the lines; only the newest lines are then read, for the stops. In a damaged record what
 * stands before the damage: a scale may then count as never checked.
 */
export const remembered = async (journal: Journal, known: Readonly<Record<InstrumentId, EntryId>> | null = null): Promise<Remembered> => {
  const checks: Record<InstrumentId, EntryId> = { ...known };
  const stops: Stopped[] = [];
  for (let after = known === null ? 0 : Math.max(0, journal.seq() - STOPS_WITHIN); after < journal.seq();) {
    const lines = await readable(journal, after);
    if (lines.length === 0) break;
    for (const line of lines) {
      // Most lines are none; their text says so before anything is parsed.
      if (!line.text.includes('"kind":"scale-checked"') && !line.text.includes('"eased":{')) continue;
      const entry = JSON.parse(line.text) as Entry;
      if (entry.kind === 'scale-checked') checks[entry.body.instrument] = entry.id;
      const stopped = stoppedBy(entry);
      if (stopped !== null) stops.push(stopped);
    }
    if (stops.length > STOPS_KEPT) stops.splice(0, stops.length - STOPS_KEPT);
    after = lines.at(-1)?.seq ?? journal.seq();
  }
  return { checks, stops };
};

const readable = async (journal: Journal, after: number): Promise<readonly JournalLine[]> => {
  try {
    return await journal.lines(after, PAGE);
  } catch (cause) {
    if (cause instanceof StoreProblem) return [];
    throw cause;
  }
};

/** A batch for reading; `null`: there is no such batch. */
export const reviewOf = async (journal: Pick<Journal, 'linesOf'>, id: BatchId): Promise<BatchReview | null> => {
  const entries = await entriesOf(journal, id);
  return entries.length === 0 ? null : review(entries);
};
