import { spawnSync } from 'node:child_process';
import { codeOf } from '#server/store/problem';

/** Runs a program a check depends on. A machine without it fails the test with what to install; nothing is skipped. */
export const tool = (
  name: string,
  args: readonly string[],
  how: { readonly cwd?: string } = {},
): { readonly code: number | null; readonly out: string } => {
  const { error, status, stdout, stderr } = spawnSync(name, [...args], { ...how, encoding: 'utf8' });
  if (error !== undefined && codeOf(error) === 'ENOENT')
    throw new Error(`${name} is not here, and this check cannot do without it: "sudo apt-get install ${PACKAGE[name] ?? name}".`);
  if (error !== undefined) throw error;
  return { code: status, out: `${stdout}${stderr}` };
};

const PACKAGE: Readonly<Record<string, string>> = {
  sha256sum: 'coreutils',
  bash: 'bash',
  pdftotext: 'poppler-utils',
  pdfinfo: 'poppler-utils',
  pdffonts: 'poppler-utils',
  pdftoppm: 'poppler-utils',
};

/** The same, and it must end well. */
export const toolWell = (...call: Parameters<typeof tool>): string => {
  const { code, out } = tool(...call);
  if (code !== 0) throw new Error(`${call[0]} ${call[1].join(' ')} ended with ${String(code)}: ${out}`);
  return out;
};
