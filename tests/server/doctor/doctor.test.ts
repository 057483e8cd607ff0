import { spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { checkClock } from '#server/doctor/clock';
import type { Finding } from '#server/doctor/finding';
import { checkFolder } from '#server/doctor/folder';
import { checkPorts } from '#server/doctor/ports';
import { checkNativeParts, checkNode, missingTools } from '#server/doctor/program';
import { checkRecords } from '#server/doctor/record';
import { report } from '#server/doctor/report';
import { lockDirectory } from '#server/store/lock';
import { openStore } from '#server/store/open';
import type { Store } from '#server/store/store';
import { as } from '#lib/units/id';
import { wall, monotonic } from '#lib/units/time';
import { machine } from '../ports/machine';
import { asNobody } from './nobody';

const ROOT = resolve(import.meta.dirname, '../../..');
const levels = (findings: readonly Finding[]): string[] => findings.map(({ level }) => level);

let dir: string;
beforeEach(() => {
  dir = mkdtempSync(join(tmpdir(), 'doctor-'));
});
afterEach(() => rmSync(dir, { recursive: true, force: true }));

/** Begins a practice record, or goes on with it, and closes it again; its file. */
const record = async (within: (store: Store) => Promise<unknown> = async () => undefined): Promise<string> => {
  const clock = { now: () => monotonic(0), wall: () => wall(1_790_000_000_000), offsetMinutes: () => 0 };
  const log = { info() {}, warn() {}, error() {} };
  const store = await openStore({ dir, realm: 'practice', clock, log });
  await within(store);
  await store.close();
  return join(dir, 'practice.sqlite');
};

const run = (...args: string[]) =>
  spawnSync(process.execPath, ['--import', 'tsx', 'server/doctor/main.ts', ...args], { cwd: ROOT, encoding: 'utf8' });

describe('program', () => {
  it('knows a Node that is too old, one that will do and one that is current', () => {
    expect(levels(checkNode('18.19.0', '>=20.20'))).toEqual(['stop']);
    expect(levels(checkNode('20.19.5', '>=20.20'))).toEqual(['stop']);
    expect(levels(checkNode('20.20.2', '>=20.20'))).toEqual(['note']);
    expect(levels(checkNode('22.3.0', '>=20.20'))).toEqual(['fine']);
  });

  it('C3: names the missing compiler when a native part will not load', async () => {
    const broken = { name: 'better-sqlite3', load: () => Promise.reject(new Error('Could not locate the bindings file.\nTried: …')) };
    const [finding] = await checkNativeParts([broken], dir);
    expect(finding?.level).toBe('stop');
    expect(finding?.said).toContain('Could not locate the bindings file.');
    expect(finding?.todo).toContain('C++ compiler');
    expect(finding?.todo).toContain('apt install build-essential');
    expect(finding?.todo).toContain('npm rebuild better-sqlite3');
  });

  it('does not blame a compiler that is there', async () => {
    for (const tool of ['g++', 'make', 'python3']) writeFileSync(join(dir, tool), '', { mode: 0o755 });
    expect(await missingTools(dir)).toEqual([]);
    const [finding] = await checkNativeParts([{ name: 'some-part', load: () => Promise.reject(new Error('no')) }], dir);
    expect(finding?.todo).toBe('Then run "npm rebuild some-part".');
  });
});

describe('ports', () => {
  const nobody = { user: 'maker', groups: [] };

  it('says when none is plugged in, which stops nothing', async () => {
    expect(levels(await checkPorts({ root: dir, ...nobody }))).toEqual(['note']);
  });

  it('B4: an adapter this user may not open stops the job and names the group to join, or to log in anew for', async () => {
    const { root, at, put, remove } = machine([{ name: 'ttyUSB0', socket: '1-1.1', serial: 'A10' }]);
    chmodSync(root, 0o755);
    chmodSync(at('dev/ttyUSB0'), 0o000);
    const gid = process.getgid?.() ?? 0;
    const ask = (): Promise<Finding[]> =>
      asNobody('#server/doctor/ports', 'checkPorts', { root, user: 'maker', groups: [] }) as Promise<Finding[]>;
    put('etc/group', `plugdev:x:${gid}:`);
    const [stranger] = await ask();
    expect(stranger).toMatchObject({ level: 'stop' });
    expect(stranger?.todo).toContain('sudo usermod -aG plugdev maker');
    put('etc/group', `plugdev:x:${gid}:other,maker`);
    const [member] = await ask();
    expect(member?.todo).toContain('since you logged in');
    expect(member?.todo).not.toContain('usermod');
    chmodSync(at('dev/ttyUSB0'), 0o666);
    expect(levels(await ask())).toEqual(['fine']);
    remove();
  });

  it('notes twins, adapters that may be put to sleep and services that grab ports', async () => {
    const { root, put, remove } = machine([
      { name: 'ttyUSB0', socket: '1-1.1' },
      { name: 'ttyUSB1', socket: '1-1.2' },
    ]);
    put('sys/devices/pci0000:00/0000:00:14.0/usb1/1-1.1/power/control', 'auto');
    put('proc/812/comm', 'ModemManager');
    const findings = await checkPorts({ root, ...nobody });
    remove();
    expect(levels(findings)).toEqual(['fine', 'note', 'note', 'fine', 'note', 'note']);
    const said = findings.map((finding) => finding.said).join('\n');
    expect(said).toMatch(/by-path\S+1\.1:1\.0-port0 \(Some Maker\) shares its by-id name/);
    expect(said).toContain('put to sleep');
    expect(said).toContain('ModemManager is running');
  });
});

describe('data folder', () => {
  it('is fine when it can be written, leaves nothing behind and is not made when missing', async () => {
    expect(levels(await checkFolder(dir))).toEqual(['fine', 'fine']);
    expect(readdirSync(dir)).toEqual([]);
    expect(levels(await checkFolder(join(dir, 'a', 'b')))).toEqual(['fine', 'fine']);
    expect(readdirSync(dir)).toEqual([]);
  });

  it('stops the job when this user may not write there, or it is no folder', async () => {
    mkdirSync(join(dir, 'locked'), { mode: 0o555 });
    chmodSync(dir, 0o755);
    const [locked] = (await asNobody('#server/doctor/folder', 'checkFolder', join(dir, 'locked'))) as Finding[];
    expect(locked).toMatchObject({ level: 'stop' });
    expect(locked?.todo).toMatch(/right to write.*--data DIR/);
    writeFileSync(join(dir, 'file'), '');
    expect(levels(await checkFolder(join(dir, 'file')))).toEqual(['stop']);
  });

  it('stops the job when what lies there may not be written by this user', async () => {
    writeFileSync(join(dir, 'real.sqlite'), '', { mode: 0o444 });
    writeFileSync(join(dir, 'real.heads'), '');
    chmodSync(join(dir, 'real.heads'), 0o666);
    chmodSync(dir, 0o777);
    const [barred] = (await asNobody('#server/doctor/folder', 'checkFolder', dir)) as Finding[];
    expect(barred).toMatchObject({ level: 'stop' });
    expect(barred?.said).toMatch(/cannot be written to: real\.sqlite \(EACCES\)/);
    expect(barred?.todo).toContain('the right to write');
  });
});

describe('record', () => {
  it('has nothing to look at before the first start', async () => {
    expect(levels(await checkRecords(dir))).toEqual(['fine']);
  });

  it('says when a program runs on the folder, and believes no number of one that is gone', async () => {
    const held = lockDirectory(dir);
    const [running] = await checkRecords(dir);
    expect(running).toMatchObject({ level: 'note', said: expect.stringContaining(`process ${process.pid}`) as string });
    held.release();
    expect(levels(await checkRecords(dir))).toEqual(['fine']);
    // No process has a number beyond the kernel's largest.
    writeFileSync(join(dir, 'in-use.txt'), 'process 99999999\n');
    expect(levels(await checkRecords(dir))).toEqual(['fine']);
  });

  it('finds a whole record whole and does not change it', async () => {
    const file = await record();
    const before = readFileSync(file);
    const [finding] = await checkRecords(dir);
    expect(finding?.said).toContain('practice record is whole');
    expect(readFileSync(file).equals(before)).toBe(true);
  });

  it('B8: a record that opens but is not what was written stops the job too', async () => {
    const db = new Database(await record());
    db.exec(`insert into bench_lines (seq, id, text, leaf, link) values (1, 'smuggled', '{}', '${'0'.repeat(64)}', '${'0'.repeat(64)}')`);
    db.close();
    const [finding] = await checkRecords(dir);
    expect(finding).toMatchObject({ level: 'stop' });
    expect(finding?.said).toContain('damaged');
  });

  it('B8: a damaged record stops the job in plain words, and so does a file that is none', async () => {
    const file = await record();
    const bytes = readFileSync(file);
    // The header of the second page.
    bytes.fill(0xa5, 4096, 4160);
    writeFileSync(file, bytes);
    writeFileSync(join(dir, 'real.sqlite'), 'this is no database, though it is long enough to look like one\n'.repeat(20));
    const findings = await checkRecords(dir);
    expect(levels(findings)).toEqual(['stop', 'stop']);
    for (const finding of findings) expect(finding.todo).toContain('copy the whole folder');
  });

  it('B8: a record that is gone, or lacks its newest lines, is missed as a start misses it', async () => {
    const file = await record();
    const early = readFileSync(file);
    await record((store) => store.settings.setScreen({ mass: 'oz', temperature: 'F' }, as('maker')));
    writeFileSync(file, early);
    const [short] = await checkRecords(dir);
    expect(short).toMatchObject({ level: 'stop', said: expect.stringContaining('was committed last and is missing') as string });
    rmSync(file);
    const [gone] = await checkRecords(dir);
    expect(gone).toMatchObject({ level: 'stop', said: expect.stringContaining('is now missing or empty') as string });
    mkdirSync(file);
    const [folder] = await checkRecords(dir);
    expect(folder).toMatchObject({ level: 'stop', said: expect.stringContaining('a folder stands in its place') as string });
  });
});

describe('clock', () => {
  const at = Date.UTC(2026, 10, 25, 9, 30);
  const parts = { now: at, offsetMinutes: -210, synchronised: () => Promise.resolve(null) };

  it('tells the time with its offset', async () => {
    expect(await checkClock({ ...parts, dir })).toEqual([{ level: 'fine', said: 'The clock says 2026-11-25 06:00, UTC−03:30.' }]);
  });

  it('B10: notes a clock behind the record, or one no time server keeps; neither stops the job', async () => {
    writeFileSync(join(dir, 'real.sqlite'), '');
    utimesSync(join(dir, 'real.sqlite'), at / 1000, at / 1000 + 3_600);
    const findings = await checkClock({ ...parts, dir, synchronised: () => Promise.resolve(false) });
    expect(levels(findings)).toEqual(['note', 'note']);
    expect(findings[0]?.said).toContain('2026-11-25T10:30 UTC');
  });
});

describe('report', () => {
  it('says how many things stop the job', () => {
    const finding = { level: 'stop', said: 'no.', todo: 'Do it.' } as const;
    expect(report([['A', [finding]]])).toEqual({ stops: true, text: 'A\n STOP  no.\n       → Do it.\n\nOne thing stops the job.' });
    expect(report([['A', [{ level: 'note', said: 'hm.' }]]]).stops).toBe(false);
  });

  it('ends with 0 where nothing stops the job, with 1 where something does, with 2 at a misspelt flag', () => {
    const sound = run('--data', dir);
    expect(sound.stdout).toContain('Nothing stops the job.');
    expect(sound.status).toBe(0);
    writeFileSync(join(dir, 'real.sqlite'), 'this is no database, though it is long enough to look like one\n'.repeat(20));
    expect(run('--data', dir).status).toBe(1);
    const misspelt = run('--dta', dir);
    expect(misspelt.stdout).toContain('did you mean --data?');
    expect(misspelt.status).toBe(2);
  });
});
