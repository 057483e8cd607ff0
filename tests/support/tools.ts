import { spawnSync } from 'node:child_process';

/** Runs a program a check depends on. A machine without it fails the test with what to install; nothing is skipped. */
export const tool = (
  name: string,
  args: readonly string[],
  how: { readonly cwd?: string; readonly input?: string | Uint8Array } = {},
): { readonly code: number | null; readonly out: string } => {
  const { error, status, stdout, stderr } = spawnSync(name, [...args], { ...how, encoding: 'buffer' });
  if ((error as NodeJS.ErrnoException | undefined)?.code === 'ENOENT')
    throw new Error(`${name} is not here, and this check cannot do without it: "sudo apt-get install ${PACKAGE[name] ?? name}".`);
  if (error !== undefined) throw error;
  return { code: status, out: `${stdout.toString()}${stderr.toString()}` };
};

const PACKAGE: Readonly<Record<string, string>> = { sha256sum: 'coreutils', bash: 'bash' };

/** The same, and it must end well. */
export const toolWell = (...call: Parameters<typeof tool>): string => {
  const { code, out } = tool(...call);
  if (code !== 0) throw new Error(`${call[0]} ${call[1].join(' ')} ended with ${String(code)}: ${out}`);
  return out;
};
