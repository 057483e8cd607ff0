import { readdir, readFile, realpath } from 'node:fs/promises';
import { join, dirname } from 'node:path';

/** One serial device as the system names it. Paths are absolute, below the scanned root. */
export interface ScannedPort {
  /** The kernel's name, given in order of plugging in: `/dev/ttyUSB0`. */
  readonly device: string;
  /** The by-id link pointing here: follows the adapter to any socket. */
  readonly byId: string | null;
  /** The by-path link pointing here: stays with the socket. */
  readonly byPath: string | null;
  readonly maker: string | null;
  /** What udev makes a by-id name of. Two ports with one identity fight over one name. `null`: not on USB. */
  readonly identity: string | null;
  /** The kernel may suspend the adapter when it seems idle. */
  readonly maySleep: boolean;
}

/** USB adapters, boards with USB of their own, and the UARTs of small computers and PC cards. */
const SERIAL_NAME = /^tty(USB|ACM|AMA|S)\d+$/;

/** Below `root`, `dev` and `sys` are read; no port is opened. */
export async function scanPorts(root = '/'): Promise<ScannedPort[]> {
  const dev = join(root, 'dev');
  const [names, ids, paths] = await Promise.all([
    entries(dev),
    linksByTarget(join(dev, 'serial/by-id')),
    linksByTarget(join(dev, 'serial/by-path')),
  ]);
  const ports = await Promise.all(
    names.filter((name) => SERIAL_NAME.test(name)).map((name) => describe(root, join(dev, name), name, ids, paths)),
  );
  return ports.filter((port) => port !== null).toSorted((a, b) => a.device.localeCompare(b.device, 'en', { numeric: true }));
}

/** Ports that claim the same by-id name as `port`, itself left out. */
export const twins = (port: ScannedPort, all: readonly ScannedPort[]): ScannedPort[] =>
  port.identity === null ? [] : all.filter((other) => other !== port && other.identity === port.identity);

async function describe(
  root: string,
  device: string,
  name: string,
  ids: ReadonlyMap<string, string>,
  paths: ReadonlyMap<string, string>,
): Promise<ScannedPort | null> {
  const about = join(root, 'sys/class/tty', name);
  // A PC names 32 UARTs whether it has them or not; type 0 is one that is not there.
  if ((await line(join(about, 'type'))) === '0') return null;
  const target = await realpath(device).catch(() => device);
  return { device, byId: ids.get(target) ?? null, byPath: paths.get(target) ?? null, ...(await usbOf(join(about, 'device'))) };
}

/** Climbs from the tty to the USB interface and the USB device above it. Attribute names: Linux, Documentation/ABI, sysfs-bus-usb. */
async function usbOf(link: string): Promise<Pick<ScannedPort, 'maker' | 'identity' | 'maySleep'>> {
  let at = await realpath(link).catch(() => null);
  let part = '';
  while (at !== null && dirname(at) !== at) {
    part ||= (await line(join(at, 'bInterfaceNumber'))) ?? '';
    const [vendor, product] = [await line(join(at, 'idVendor')), await line(join(at, 'idProduct'))];
    if (vendor !== null && product !== null) {
      const [maker, serial] = [await line(join(at, 'manufacturer')), await line(join(at, 'serial'))];
      const port = await line(join(link, 'port_number'));
      const maySleep = (await line(join(at, 'power/control'))) === 'auto';
      return { maker, identity: [vendor, product, serial ?? '', part, port ?? ''].join(':'), maySleep };
    }
    at = dirname(at);
  }
  return { maker: null, identity: null, maySleep: false };
}

async function linksByTarget(folder: string): Promise<Map<string, string>> {
  const found = new Map<string, string>();
  // In reverse, so that of two links to one device the alphabetically first one stays: the same at every scan.
  for (const name of (await entries(folder)).toReversed()) {
    const link = join(folder, name);
    const target = await realpath(link).catch(() => null);
    if (target !== null) found.set(target, link);
  }
  return found;
}

const entries = async (folder: string): Promise<string[]> => (await readdir(folder).catch((): string[] => [])).toSorted();

const line = async (file: string): Promise<string | null> => {
  const text = await readFile(file, 'utf8').catch(() => null);
  return text === null ? null : text.trim();
};
