import { lstatSync, readlinkSync, statSync } from 'node:fs';
import { dirname } from 'node:path';

/** What socat's own address syntax would take for something else than a part of a name. */
const SYNTAX = /[,:!"'\\()[\]{}]/;

/**
 * Why the link to the pseudo-terminal cannot go there; `null`: it can. Whatever else stands under that name would be removed by it. A link
 * that a killed instrument left behind is taken over.
 */
export const inTheWay = (path: string): string | null => {
  if (SYNTAX.test(path)) return `--pty ${path}: a name without ${SYNTAX.exec(path)?.[0] ?? ''} is needed`;
  const folder = dirname(path);
  if (statSync(folder, { throwIfNoEntry: false })?.isDirectory() !== true) return `--pty ${path}: there is no folder ${folder}`;
  const found = lstatSync(path, { throwIfNoEntry: false });
  if (found === undefined || (found.isSymbolicLink() && readlinkSync(path).startsWith('/dev/pts/'))) return null;
  return `--pty ${path}: something stands there already and would be lost; name a place where nothing is`;
};
