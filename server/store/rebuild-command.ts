import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { JournalReadOnly } from '#lib/record/journal';
import { systemClock } from '../bench/system';
import { defaultData } from '../args';
import { createLog } from '../log';
import { lockDirectory } from './lock';
import { openStore } from './open';
import { StoreProblem } from './problem';

/** `npm run rebuild -- --data DIR`: drops what is derived from the lines of every record in a folder, and makes it again from them. */
const { values } = parseArgs({ options: { data: { type: 'string' } } });
const dir = values.data ?? defaultData(process.env);
try {
  const lock = lockDirectory(dir);
  try {
    for (const realm of ['real', 'practice', 'test'] as const) {
      if (!existsSync(join(dir, `${realm}.sqlite`))) continue;
      const store = await openStore({ dir, realm, clock: systemClock, log: createLog('warn'), lock });
      const from = performance.now();
      await store.rebuild();
      console.log(`${realm}: made anew from ${store.bench.seq()} lines in ${((performance.now() - from) / 1000).toFixed(1)} s`);
      await store.close();
    }
  } finally {
    lock.release();
  }
} catch (cause) {
  if (cause instanceof StoreProblem) console.error(`${cause.happened}\n${cause.kept}\n${cause.todo}`);
  else if (cause instanceof JournalReadOnly) console.error(cause.message);
  else throw cause;
  process.exitCode = 1;
}
