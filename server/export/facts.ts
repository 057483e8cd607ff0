import type { BatchPage } from '#lib/protocol/http';
import { BATCH_RECORD, BATCH_RECORD_SCHEMA } from '#lib/protocol/export';
import type { JournalLine } from '#lib/record/journal';
import { printedHead } from '#lib/record/printed';
import { parsed } from '#lib/record/lines';
import type { Display } from '#lib/units/display';
import type { EntryId, InstrumentId } from '#lib/units/id';
import type { Entry } from '#lib/work/batch/index';
import type { EarlierCheck, RecordFacts } from '#lib/words/record/facts';
import { originOf } from '../store/proof-fold';
import type { Store } from '../store/store';

/** What goes out about one batch: its review as the page has it, and its lines. */
export interface Outgoing {
  readonly page: BatchPage;
  readonly lines: readonly JournalLine[];
}

/** A batch as a file for other programs: its review, and every entry with what seals it. */
export const recordFile = ({ page: { people, ...review }, lines }: Outgoing): object => ({
  $schema: BATCH_RECORD_SCHEMA,
  format: BATCH_RECORD,
  version: 1,
  people,
  review,
  lines: lines.map(({ seq, leaf, link, text }) => ({ seq, leaf, link, entry: parsed(text) })),
});

/** Everything the printed record says. */
export const recordFacts = async (
  { page, lines }: Outgoing,
  store: Pick<Store, 'proof' | 'realm' | 'entry'>,
  display: Display,
  instrumentName: (id: InstrumentId) => string,
): Promise<RecordFacts> => {
  const named = store.proof.named();
  const { seq, link } = page.record;
  return {
    review: page,
    head: named === null || link === '' ? null : printedHead({ origin: originOf(named.id, store.realm, 'bench'), seq, link }),
    display,
    instrumentName,
    personName: (id) => page.people[id] ?? id,
    checkedBefore: await earlierChecks(lines, store),
  };
};

/** The check each weight of the batch names, where that stands in an earlier batch. */
const earlierChecks = async (lines: readonly JournalLine[], store: Pick<Store, 'entry'>): Promise<Record<string, EarlierCheck>> => {
  const named = new Map<InstrumentId, EntryId>();
  for (const { text } of lines) {
    const entry = parsed(text) as Entry;
    if (entry.kind === 'weight-accepted' && entry.body.weighed.check !== null)
      named.set(entry.body.weighed.instrument, entry.body.weighed.check);
  }
  const found: Record<string, EarlierCheck> = {};
  for (const [instrument, id] of named) {
    const line = await store.entry(id);
    const entry = line === null ? null : (parsed(line.text) as Entry);
    if (entry?.kind !== 'scale-checked') continue;
    const { nominal, difference } = entry.body;
    found[instrument] = { nominal, difference, wall: entry.wall, offsetMin: entry.offsetMin };
  }
  return found;
};
