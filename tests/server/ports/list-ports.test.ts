import { rmSync } from 'node:fs';
import { afterEach, describe, expect, it } from 'vitest';
import { refuseAmbiguous } from '#hardware/ports/bind';
import { listPorts } from '#hardware/ports/list-ports';
import { createSerialOpener } from '#hardware/ports/serialport-opener';
import { monotonic } from '#lib/units/time';
import { machine, type Adapter } from './machine';

let made: ReturnType<typeof machine> | null = null;
afterEach(() => made?.remove());
const plugged = (...adapters: Adapter[]) => (made = machine(adapters));
const ID = 'dev/serial/by-id/usb-1a86_7523';
const PATH = 'dev/serial/by-path/pci-0000:00:14.0-usb-0:';
const NUMBERED: Adapter = { name: 'ttyUSB0', socket: '1-1.1', serial: 'A10', maker: 'Maker One' };
const TWIN_A: Adapter = { name: 'ttyUSB1', socket: '1-1.2' };
const TWIN_B: Adapter = { name: 'ttyUSB2', socket: '1-1.3' };
const codeOf = (attempt: Promise<unknown>): Promise<unknown> =>
  attempt.then(
    () => 'accepted',
    (error: { code?: unknown }) => error.code,
  );

describe('listing ports', () => {
  it('names each port by its by-id link', async () => {
    const { root, at } = plugged(NUMBERED, TWIN_A);
    expect(await listPorts(root)).toEqual([
      { stable: at(`${ID}_A10-if00-port0`), device: at('dev/ttyUSB0'), maker: 'Maker One', ambiguous: false },
      { stable: at(`${ID}-if00-port0`), device: at('dev/ttyUSB1'), maker: 'Some Maker', ambiguous: false },
    ]);
  });

  it('names twins by their sockets and says that their by-id name is shared', async () => {
    const { root, at } = plugged(NUMBERED, TWIN_A, TWIN_B);
    expect((await listPorts(root)).map(({ stable, ambiguous }) => [stable, ambiguous])).toEqual([
      [at(`${ID}_A10-if00-port0`), false],
      [at(`${PATH}1.2:1.0-port0`), true],
      [at(`${PATH}1.3:1.0-port0`), true],
    ]);
  });

  it('falls back to the socket, then to the device', async () => {
    const { root, at } = plugged(NUMBERED);
    rmSync(at('dev/serial/by-id'), { recursive: true });
    expect((await listPorts(root))[0]?.stable).toBe(at(`${PATH}1.1:1.0-port0`));
    rmSync(at('dev/serial'), { recursive: true });
    expect((await listPorts(root))[0]?.stable).toBe(at('dev/ttyUSB0'));
  });

  it('leaves out UARTs the machine names but has not, and whatever else lies in dev', async () => {
    const { root, put, at } = plugged();
    for (const [name, type] of Object.entries({ ttyS0: '4', ttyS1: '0', ttyS10: '4', ttyS2: '4' })) {
      put(`dev/${name}`, '');
      put(`sys/class/tty/${name}/type`, type);
    }
    put('dev/tty1', '');
    expect((await listPorts(root)).map(({ device }) => device)).toEqual(['ttyS0', 'ttyS2', 'ttyS10'].map((name) => at(`dev/${name}`)));
  });

  it('finds nothing where there is nothing', async () => {
    expect(await listPorts('/absent')).toEqual([]);
  });
});

describe('binding', () => {
  it('B2: refuses a by-id name two adapters claim and names their sockets', async () => {
    const { root, at } = plugged(NUMBERED, TWIN_A, TWIN_B);
    const refusal = await refuseAmbiguous(at(`${ID}-if00-port0`), root).catch((error: unknown) => error);
    expect(refusal).toMatchObject({ code: 'ambiguous' });
    for (const socket of ['1.2', '1.3']) expect(String(refusal)).toContain(at(`${PATH}${socket}:1.0-port0`));
    expect(await codeOf(refuseAmbiguous(at(`${ID}_A10-if00-port0`), root))).toBe('accepted');
    expect(await codeOf(refuseAmbiguous(at(`${PATH}1.2:1.0-port0`), root))).toBe('accepted');
  });

  it('B2: refuses a name given in order of plugging in, unless there is only one adapter', async () => {
    const several = plugged(NUMBERED, TWIN_A);
    expect(await codeOf(refuseAmbiguous(several.at('dev/ttyUSB0'), several.root))).toBe('ambiguous');
    several.remove();
    const one = plugged(NUMBERED);
    expect(await codeOf(refuseAmbiguous(one.at('dev/ttyUSB0'), one.root))).toBe('accepted');
  });

  it('takes any other path at its word', async () => {
    expect(await codeOf(refuseAmbiguous('/dev/scale'))).toBe('accepted');
    expect(await codeOf(refuseAmbiguous('/tmp/anything'))).toBe('accepted');
  });

  it('B2: the opener itself refuses, before it opens anything', async () => {
    const { root, at } = plugged(TWIN_A, TWIN_B);
    const opener = createSerialOpener({ now: () => monotonic(0), root });
    const attempt = opener.open(at(`${ID}-if00-port0`), { baudRate: 9600, frame: '8N1' }, { data() {}, closed() {} });
    expect(await codeOf(attempt)).toBe('ambiguous');
  });
});
