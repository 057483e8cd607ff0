import { chmodSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { checkInstruments } from '#server/doctor/instruments';
import { openStore } from '#server/store/open';
import type { Store } from '#server/store/store';
import type { InstrumentConfig } from '#lib/measure/instrument';
import { as } from '#lib/units/id';
import { scaleAt } from '#tests/support/scale-config';
import { KeptLog, STILL } from '#tests/support/store-rig';
import { machine } from '../ports/machine';
import { asNobody } from './nobody';

const probe = (path: string): InstrumentConfig => ({
  kind: 'probe',
  id: as('probe-lye'),
  name: 'lye probe',
  use: 'lye',
  path,
  shape: 'probe-line',
  serial: { baudRate: 9600, frame: '8N1' },
});

describe('instruments that Setup stored', () => {
  let dir: string;
  let store: Store | null;
  beforeEach(() => {
    dir = mkdtempSync(join(tmpdir(), 'doctor-'));
    store = null;
  });
  afterEach(async () => {
    await store?.close();
    rmSync(dir, { recursive: true, force: true });
  });
  const stored = async (configs: readonly InstrumentConfig[], practiceLeft = true): Promise<void> => {
    store = await openStore({ dir, realm: 'real', clock: STILL, log: new KeptLog() });
    for (const config of configs) await store.settings.bindInstrument(config, as('maker'));
    if (practiceLeft) await store.settings.leavePractice(as('maker'));
  };

  it('are none before the first start, and none that matter while nothing is bound', async () => {
    expect(await checkInstruments(dir)).toEqual([]);
    await stored([], false);
    expect(await checkInstruments(dir)).toMatchObject([{ level: 'fine', said: expect.stringContaining('practice') }]);
    await store?.settings.leavePractice(as('maker'));
    expect(await checkInstruments(dir)).toMatchObject([{ level: 'note', said: 'Setup has stored no instrument.' }]);
  });

  it('are looked at one by one, while a server holds the record, and nothing is changed', async () => {
    const { root, at, remove } = machine([{ name: 'ttyUSB0', socket: '1-1.1', serial: 'A10' }]);
    const there = at('dev/serial/by-id/usb-1a86_7523_A10-if00-port0');
    await stored([scaleAt(there), probe('/dev/serial/by-id/gone')]);
    // The heads file is written right after the answer.
    await setImmediate();
    const before = readFileSync(join(dir, 'real.sqlite'));
    const names = readdirSync(dir).map((name) => [name, statSync(join(dir, name)).size]);
    const found = await checkInstruments(dir, root);
    expect(found).toMatchObject([
      { level: 'fine', said: `big scale (${there}) is there and may be opened.` },
      { level: 'note', said: 'lye probe (/dev/serial/by-id/gone): Nothing is plugged in under this name.' },
    ]);
    expect(readFileSync(join(dir, 'real.sqlite')).equals(before)).toBe(true);
    expect(readdirSync(dir).map((name) => [name, statSync(join(dir, name)).size])).toEqual(names);
    remove();
  });

  it('a scale that is not there, or whose name two adapters claim, stops the job', async () => {
    const { root, at, remove } = machine([
      { name: 'ttyUSB0', socket: '1-1.1' },
      { name: 'ttyUSB1', socket: '1-1.2' },
    ]);
    await stored([scaleAt(at('dev/serial/by-id/usb-1a86_7523-if00-port0')), scaleAt(at('dev/ttyUSB7'), { id: as('scale-fine') })]);
    const [twins, gone] = await checkInstruments(dir, root);
    expect(twins).toMatchObject({ level: 'stop', said: expect.stringContaining('more than one instrument') });
    expect(twins?.todo).toContain('by-path');
    expect(gone).toMatchObject({ level: 'stop', said: expect.stringContaining('Nothing is plugged in') });
    remove();
  });

  it('stop nobody while the practice bench runs instead of them', async () => {
    await stored([scaleAt('/dev/serial/by-id/gone')], false);
    expect(await checkInstruments(dir)).toMatchObject([
      { level: 'note', said: expect.stringContaining('Nothing is plugged in') },
      { level: 'note', said: 'The practice bench runs; these instruments wait.' },
    ]);
  });

  it('B4: one that this user may not open says so', async () => {
    const { root, at, remove } = machine([{ name: 'ttyUSB0', socket: '1-1.1', serial: 'A10' }]);
    for (const open of [root, at('dev')]) chmodSync(open, 0o755);
    chmodSync(at('dev/ttyUSB0'), 0o000);
    const denied = await asNobody('#server/doctor/instruments', 'checkInstrument', scaleAt(at('dev/ttyUSB0')), root);
    expect(denied).toMatchObject({ level: 'stop', said: expect.stringContaining('may not open the port') });
    remove();
  });

  it('say nothing when the record cannot be believed: that is said of the record', async () => {
    writeFileSync(join(dir, 'real.sqlite'), 'this is no database, though it is long enough to look like one\n'.repeat(20));
    expect(await checkInstruments(dir)).toEqual([]);
  });
});
