import { parseArgs } from 'node:util';
import { defaultData } from '../args';
import { StoreProblem } from '../store/problem';
import { restore } from './restore';

/** `npm run restore -- --from FILE --data DIR`: puts a copy of a record into a folder that has none, after looking at every line of it. */
const { values } = parseArgs({ options: { from: { type: 'string' }, data: { type: 'string' } } });
if (values.from === undefined) {
  console.error('Name the copy: npm run restore -- --from FILE [--data DIR]');
  process.exitCode = 2;
} else {
  try {
    const { file, realm, lines } = restore(values.from, values.data ?? defaultData(process.env));
    console.log(`${lines} lines of the ${realm} record are in ${file}, every one checked.`);
  } catch (cause) {
    if (!(cause instanceof StoreProblem)) throw cause;
    console.error(`${cause.happened}\n${cause.kept}\n${cause.todo}`);
    process.exitCode = 1;
  }
}
