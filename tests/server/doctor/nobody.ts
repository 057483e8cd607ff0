import { execFile } from 'node:child_process';
import { resolve } from 'node:path';
import { promisify } from 'node:util';

const ROOT = resolve(import.meta.dirname, '../../..');

/** Runs one check of the doctor as a user without rights, and gives back what it found. Permissions mean nothing to root. What the check loads
 * late could not be found any more. */
export async function asNobody(module: string, check: string, ...args: readonly unknown[]): Promise<unknown> {
  const script = `
    const { ${check} } = await import('${module}');
    const { becomeNobody } = await import('#tests/support/nobody');
    becomeNobody();
    console.log(JSON.stringify(await ${check}(...${JSON.stringify(args)})));`;
  const ran = promisify(execFile)(process.execPath, ['--import', 'tsx', '--input-type=module', '-e', script], { cwd: ROOT });
  return JSON.parse((await ran).stdout) as unknown;
}
