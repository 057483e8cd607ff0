import { realpath } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { PortError } from '#lib/measure/link/port';
import { scanPorts, twins, type ScannedPort } from './scan-ports';

/** Names of adapters given in order of plugging in: two of them may change places. */
const ORDER_NAME = /^tty(USB|ACM)\d+$/;

/**
 * Refuses a name that could mean more than one instrument: a by-id name two plugged-in adapters claim, or a kernel name
 * while several adapters are plugged in. Any other path, a udev link of the person's own included, is taken at its word.
 * @throws PortError `ambiguous`, naming the paths that are not.
 */
export async function refuseAmbiguous(path: string, root = '/'): Promise<void> {
  const dev = join(root, 'dev');
  const folder = dirname(path);
  if (folder === join(dev, 'serial/by-id')) {
    const all = await scanPorts(root);
    const target = await realpath(path).catch(() => null);
    const port = all.find((candidate) => candidate.device === target);
    const others = port === undefined ? [] : twins(port, all);
    if (port !== undefined && others.length > 0) throw ambiguous(`${others.length + 1} adapters claim this name`, [port, ...others]);
  } else if (folder === dev && ORDER_NAME.test(basename(path))) {
    const adapters = (await scanPorts(root)).filter((port) => ORDER_NAME.test(basename(port.device)));
    if (adapters.length > 1) throw ambiguous('this name depends on the order of plugging in', adapters);
  }
}

const ambiguous = (why: string, ports: readonly ScannedPort[]): PortError =>
  new PortError('ambiguous', `${why}; bind by ${ports.map((port) => port.byPath ?? port.byId ?? port.device).join(' or ')}`);
