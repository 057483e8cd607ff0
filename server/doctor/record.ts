import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { Realm } from '#lib/work/batch/index';
import { codeOf, StoreProblem } from '../store/problem';
import type { ProblemText } from '../store/problem';
import { fine, note, stop, type Finding } from './finding';

const REALMS: readonly Realm[] = ['real', 'practice', 'test'];

/** Looks at every record in the folder without changing it; a server may be running on it meanwhile. */
export async function checkRecords(dir: string): Promise<Finding[]> {
  const findings: Finding[] = await checkHolder(dir);
  const before = findings.length;
  for (const realm of REALMS) {
    const file = join(dir, `${realm}.sqlite`);
    const found = await lookAt(file, realm);
    if (found === 'nothing') continue;
    findings.push(
      found === 'whole'
        ? fine(`The ${realm} record is whole (${file}, ${Math.ceil((await stat(file)).size / 1000)} kB).`)
        : stop(found.happened, `${found.kept} ${found.todo}`),
    );
  }
  return findings.length > before ? findings : [...findings, fine('There is no record yet; the first start begins one.')];
}

/** Whether a Potwatch runs on the folder: by what it wrote there, if a process of that number is alive. */
async function checkHolder(dir: string): Promise<Finding[]> {
  const { saidHolder } = await import('../store/lock');
  const [, pid] = /^process (\d+)$/.exec(saidHolder(dir) ?? '') ?? [];
  if (pid === undefined || !isAlive(Number(pid))) return [];
  return [note(`A Potwatch (process ${pid}) is running on this folder.`, 'Use that one; a second one needs another folder: --data DIR.')];
}

const isAlive = (pid: number): boolean => {
  try {
    return process.kill(pid, 0);
  } catch (error) {
    return codeOf(error) === 'EPERM';
  }
};

/** One record as a start would find it, and its blobs as well. Loaded late: without the compiled database there is nothing to look with. */
async function lookAt(file: string, realm: Realm): Promise<'nothing' | 'whole' | ProblemText> {
  const [{ headsPath, linesIn, readHeads }, { look }, { inspect, findingsOf, finish }, { damaged, gone, unreadable }] = await Promise.all([
    import('../store/heads'),
    import('../store/look'),
    import('../store/check'),
    import('../store/words'),
  ]);
  try {
    // Before the record: beside a running server they may be older than it, never newer.
    const heads = readHeads(headsPath(file));
    const seen = look(file, realm, heads, (db, kept) => finish(inspect(db, kept, true)));
    if (seen.as === 'nothing') return heads === 'none' ? 'nothing' : gone(file, linesIn(heads));
    if (seen.as === 'unreadable') return seen.problem;
    seen.db.close();
    const found = findingsOf(seen.inspection);
    return found.length === 0 ? 'whole' : damaged(file, found);
  } catch (error) {
    return error instanceof StoreProblem ? error : unreadable(file, `${error instanceof Error ? error.message : String(error)}.`);
  }
}
