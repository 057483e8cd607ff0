import type { PortRow } from '#lib/protocol/http';
import { scanPorts, twins } from './scan-ports';

/** The serial ports of this machine with the name to bind each one by, in the kernel's order. */
export async function listPorts(root = '/'): Promise<PortRow[]> {
  const all = await scanPorts(root);
  return all.map((port) => {
    const ambiguous = twins(port, all).length > 0;
    const stable = (ambiguous ? null : port.byId) ?? port.byPath ?? port.device;
    return { stable, device: port.device, maker: port.maker, ambiguous };
  });
}
