import { constants, setPriority } from 'node:os';
import { pathToFileURL } from 'node:url';
import { finish, inspect } from './check';
import type { Checked } from './check';
import { openForReading } from './file';
import { readHeads } from './heads';

/** Everything in one record's file looked at as it stood at one moment, beside a program that may go on writing to it. */
const checkFile = (file: string): Checked => {
  // Read before, so that the file must hold at least what stood then.
  const heads = readHeads(file.replace(/\.sqlite$/, '.heads'));
  const db = openForReading(file);
  try {
    db.exec('begin');
    const { bench, workshop, file: wrong, withdrawn, rowsStale } = finish(inspect(db, typeof heads === 'string' ? null : heads, true));
    return { bench, workshop, file: wrong, withdrawn, rowsStale };
  } finally {
    db.close();
  }
};

/** The process that looks at a large record: `FILE`. Its answer is one line of JSON; it steps aside for the bench. */
if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) {
  setPriority(constants.priority.PRIORITY_BELOW_NORMAL);
  console.log(JSON.stringify(checkFile(process.argv[2] ?? '')));
}
