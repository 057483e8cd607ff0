import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';

export interface Adapter {
  readonly name: string;
  /** Socket of the USB tree: `1-1.2`. */
  readonly socket: string;
  readonly serial?: string;
  readonly maker?: string;
  readonly product?: string;
}

/** A folder laid out like `/`, with `dev` and `sys` as udev and the kernel make them for these adapters, the last one plugged in last. */
export function machine(adapters: readonly Adapter[]) {
  const root = mkdtempSync(join(tmpdir(), 'machine-'));
  const put = (path: string, text: string): void => {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), `${text}\n`);
  };
  const link = (path: string, target: string): void => {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    rmSync(join(root, path), { force: true });
    symlinkSync(target, join(root, path));
  };
  put('dev/null', '');
  for (const { name, socket, serial, maker = 'Some Maker', product = '7523' } of adapters) {
    put(`dev/${name}`, '');
    const usb = `sys/devices/pci0000:00/0000:00:14.0/usb1/${socket}`;
    const tty = `${usb}/${socket}:1.0/${name}`;
    put(`${usb}/idVendor`, '1a86');
    put(`${usb}/idProduct`, product);
    put(`${usb}/manufacturer`, maker);
    if (serial !== undefined) put(`${usb}/serial`, serial);
    put(`${usb}/${socket}:1.0/bInterfaceNumber`, '00');
    put(`${tty}/port_number`, '0');
    mkdirSync(join(root, 'sys/class/tty', name), { recursive: true });
    link(`sys/class/tty/${name}/device`, join(root, tty));
    // Twins write the same name: udev leaves it with one of them.
    link(`dev/serial/by-id/usb-1a86_${product}${serial === undefined ? '' : `_${serial}`}-if00-port0`, `../../${name}`);
    link(`dev/serial/by-path/pci-0000:00:14.0-usb-0:${socket.slice(2)}:1.0-port0`, `../../${name}`);
  }
  return { root, put, at: (path: string) => join(root, path), remove: () => rmSync(root, { recursive: true, force: true }) };
}
