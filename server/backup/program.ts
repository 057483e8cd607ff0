import { constants, setPriority } from 'node:os';
import { pathToFileURL } from 'node:url';
import { StoreProblem } from '../store/problem';
import { copyRecord } from './copy';
import type { Told } from './told';

/** The process that copies one record: `FROM TO`. Its answer is one line of JSON; it steps aside for the bench. */
const run = ([from = '', to = '']: readonly string[]): Told => {
  try {
    return { ok: true, copied: copyRecord(from, to) };
  } catch (cause) {
    if (cause instanceof StoreProblem) return { ok: false, happened: cause.happened, kept: cause.kept, todo: cause.todo };
    return { ok: false, happened: String(cause), kept: 'The record itself was not touched.', todo: 'Look at the log.' };
  }
};

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) {
  setPriority(constants.priority.PRIORITY_BELOW_NORMAL);
  console.log(JSON.stringify(run(process.argv.slice(2))));
}
