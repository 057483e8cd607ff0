import { randomBytes } from 'node:crypto';
import { access, constants, open, readdir, rm, stat, statfs } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { codeOf } from '../store/problem';
import { whereUnwritable } from '../store/words';
import { fine, note, stop, type Finding } from './finding';

/** Under this much room the record may not be writable to the end of a batch; our choice. A batch takes well under a megabyte. */
const TOO_LITTLE = 100e6;
/** Under this much, room should be made soon; our choice. */
const LITTLE = 1e9;

/** The folder the record lies in, or will lie in: is it there, can it be written and synced, is there room. Leaves nothing behind. */
export async function checkFolder(dir: string): Promise<Finding[]> {
  const there = await isFolder(dir);
  if (!there && (await exists(dir))) return [stop(`${dir} is there, but it is no folder.`, 'Name another folder: --data DIR.')];
  const at = there ? dir : await nearestFolder(dir);
  const named = there ? `The data folder ${dir}` : `The data folder ${dir} is not there yet, and ${at}`;
  const trouble = await cannotWrite(at);
  const writing =
    trouble !== null
      ? stop(`${named} cannot be written to: ${trouble.message}`, whereUnwritable(codeOf(trouble)))
      : there
        ? ((await barredIn(dir)) ?? fine(`${named} can be written to.`))
        : fine(`The data folder ${dir} is not there yet; the first start makes it.`);
  return [writing, await checkRoom(at)];
}

/** What lies in a folder that can be written, and may itself not be: a record put there by another user, for one. */
async function barredIn(dir: string): Promise<Finding | null> {
  const found: readonly string[] = await readdir(dir).catch(() => []);
  const names = found.toSorted();
  const codes = await Promise.all(names.map((name) => access(join(dir, name), constants.W_OK).then(() => null, codeOf)));
  const barred = names.filter((_, n) => codes[n] !== null && codes[n] !== 'ENOENT');
  const code = codes.find((one) => one !== null && one !== 'ENOENT') ?? '';
  if (barred.length === 0) return null;
  return stop(`In the data folder ${dir} these cannot be written to: ${barred.join(', ')} (${code}).`, whereUnwritable(code));
}

async function checkRoom(folder: string): Promise<Finding> {
  const { bavail, bsize } = await statfs(folder);
  const free = bavail * bsize;
  const said = `${free >= 1e9 ? `${(free / 1e9).toFixed(1)} GB` : `${Math.round(free / 1e6)} MB`} free on its disk`;
  if (free < TOO_LITTLE) return stop(`Only ${said}.`, 'Make room: a weight that cannot be written is not accepted.');
  if (free < LITTLE) return note(`Only ${said}.`, 'Make room soon.');
  return fine(`${said}.`);
}

const exists = (path: string): Promise<boolean> =>
  stat(path).then(
    () => true,
    () => false,
  );

const isFolder = (path: string): Promise<boolean> =>
  stat(path).then(
    (found) => found.isDirectory(),
    () => false,
  );

async function nearestFolder(path: string): Promise<string> {
  let at = path;
  while (!(await isFolder(at)) && dirname(at) !== at) at = dirname(at);
  return at;
}

/** Writes and syncs a small file, as every commit will; `null` when that works, else what the system says. */
async function cannotWrite(folder: string): Promise<Error | null> {
  const file = join(folder, `.doctor-${randomBytes(6).toString('hex')}`);
  try {
    const handle = await open(file, 'wx');
    try {
      await handle.writeFile('can this be written?\n');
      await handle.sync();
    } finally {
      await handle.close();
    }
    return null;
  } catch (error) {
    return error instanceof Error ? error : new Error(String(error));
  } finally {
    await rm(file, { force: true }).catch(() => {});
  }
}
