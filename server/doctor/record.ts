import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { Realm } from '#lib/work/batch/index';
import { fine, stop, type Finding } from './finding';

const REALMS: readonly Realm[] = ['real', 'practice', 'test'];

/** Looks at every record in the folder without changing it; a server may be running on it meanwhile. */
export async function checkRecords(dir: string): Promise<Finding[]> {
  const findings: Finding[] = [];
  for (const realm of REALMS) {
    const file = join(dir, `${realm}.sqlite`);
    const size = await stat(file).then(
      (found) => found.size,
      () => null,
    );
    if (size === null) continue;
    const wrong = await wrongIn(file);
    findings.push(
      wrong === null
        ? fine(`The ${realm} record is whole (${file}, ${Math.ceil(size / 1000)} kB).`)
        : stop(wrong.happened, `${wrong.kept} ${wrong.todo}`),
    );
  }
  return findings.length > 0 ? findings : [fine('There is no record yet; the first start begins one.')];
}

/** What is wrong with one record; `null`: nothing. Loaded late: without the compiled database there is nothing to look with. */
async function wrongIn(file: string) {
  const [{ openForReading }, { inspect, findingsOf, finish }, { MIGRATIONS, schemaVersion }, { damaged, newer, unreadable }] =
    await Promise.all([import('../store/file'), import('../store/check'), import('../store/migrate'), import('../store/words')]);
  try {
    const db = openForReading(file);
    try {
      const version = schemaVersion(db);
      if (version > MIGRATIONS.length) return newer(file, version);
      const found = findingsOf(finish(inspect(db, null, true)));
      return found.length === 0 ? null : damaged(file, found);
    } finally {
      db.close();
    }
  } catch (error) {
    return unreadable(file, `${error instanceof Error ? error.message : String(error)}.`);
  }
}
