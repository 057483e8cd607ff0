import { execFile } from 'node:child_process';
import { resolve } from 'node:path';
import { promisify } from 'node:util';
import type { Finding } from '#server/doctor/finding';

const ROOT = resolve(import.meta.dirname, '../../..');
/** User and group id of somebody without rights. */
export const NOBODY = 65_534;

/** Runs a piece of the doctor as a user without rights, and gives back what it found. Permissions mean nothing to root. */
export async function asNobody(code: string): Promise<Finding[]> {
  const drop = process.getuid?.() === 0 ? { uid: NOBODY, gid: NOBODY } : {};
  const script = `${code}.then((found) => console.log(JSON.stringify(found)))`;
  const ran = promisify(execFile)(process.execPath, ['--import', 'tsx', '--input-type=module', '-e', script], { cwd: ROOT, ...drop });
  return JSON.parse((await ran).stdout) as Finding[];
}
