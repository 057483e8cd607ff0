import { BATCH_RECORD_SCHEMA } from '#lib/protocol/export';
import type { Realm } from '#lib/work/batch/index';

const WHAT: Readonly<Record<Realm, string>> = {
  real: 'the real workshop',
  practice: 'the practice bench. None of it can pass for a real record',
  test: 'a test bench. None of it can pass for a real record',
};

/** What lies in the archive, in plain words. */
export const archiveReadme = (realm: Realm, made: Date): string =>
  `Everything Potwatch has recorded at ${WHAT[realm]}.
Made ${made.toISOString()}.

batches.csv     one row a batch (RFC 4180, comma, UTF-8; grams; times as ISO 8601)
weights.csv     one row a weight, those crossed out among them
batches/        one file a batch: what was planned and weighed, all that happened, and every entry with the hash that seals it;
                each is as ${BATCH_RECORD_SCHEMA} says (JSON Schema, draft 2020-12)
proof/          the newest signed heads of the journals, and the public keys to check them with
${realm}.sqlite   the record's own file, formulas, materials, lots, certificates and photographs in it;
                left out when it is larger than an archive can hold: take a copy from the folder of backups then.
                To go on from it on another machine:  npm run restore -- --from ${realm}.sqlite --data DIR

A cell that a spreadsheet would take for a formula has an apostrophe before it.
The key that signs heads is not in here and never leaves its machine: a record that goes on elsewhere has a name and a key of its own.
`;
