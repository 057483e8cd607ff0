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
bars.csv        one row a lot of bars: what was made of it, and where it is
sales.csv       one row whatever left, went to a market or came back, those crossed out among them
orders.csv      one row a line of an order
lots.csv        one row a lot of material: received, used, left, put away ones among them
complaints.csv  one row a complaint
people.csv      who the ids in the record are; an erased name is empty
pictures.csv    one row a picture of a batch or of bars, with where it lies in pictures/
pictures/       pictures by the SHA-256 that entries name them by
files/          certificates and data sheets, by their SHA-256 and the name they came with; lots.csv names them
batches/        one file a batch: what was planned and weighed, all that happened, and every entry with the hash that seals it;
                each is as ${BATCH_RECORD_SCHEMA} says (JSON Schema, draft 2020-12)
proof/          the newest signed heads of the journals, and the public keys to check them with
${realm}.sqlite   the record's own file, formulas, materials, lots, certificates and photographs in it;
                past 4 GB the archive has the 64-bit form of a zip, which unzip from 6.0, Python and systems of these days open.
                To go on from it on another machine:  npm run restore -- --from ${realm}.sqlite --data DIR

A cell that a spreadsheet would take for a formula has an apostrophe before it.
The key that signs heads is not in here and never leaves its machine: a record that goes on elsewhere has a name and a key of its own.
`;
