import { spawn } from 'node:child_process';
import { copyFileSync, mkdtempSync, readdirSync, readFileSync, rmSync, watch, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { copyApart } from '#server/backup/apart';
import { copyRecord, lookAt, tidy, UNFINISHED } from '#server/backup/copy';
import { backupName, backupsAmong, outlived } from '#server/backup/names';
import { restore } from '#server/backup/restore';
import { StoreProblem } from '#server/store/problem';
import { hashOf } from '#server/store/sums';
import { BATCHES } from '#tests/browser/support/paper-batches';
import { appRig } from '#tests/support/app-rig';
import type { AppRig } from '#tests/support/app-rig';

const folders: string[] = [];
const folder = (): string => {
  const path = mkdtempSync(join(tmpdir(), 'backup-'));
  folders.push(path);
  return path;
};
afterAll(() => folders.forEach((path) => rmSync(path, { recursive: true, force: true })));

const NAMES = ['eventful', 'plain', 'poured', 'parked', 'stopped', 'midway', 'begun'] as const;

/** Every review, to the letter. */
const reviews = async (of: AppRig): Promise<readonly string[]> =>
  Promise.all(NAMES.map(async (name) => (await of.get(`/api/batches/${name}`)).text()));

describe('copies of a record', () => {
  let rig: AppRig;
  beforeAll(async () => {
    rig = await appRig('practice');
    for (const name of NAMES)
      await rig.enter(
        BATCHES[name]().map((entry) => ({ ...entry, realm: 'practice', batch: name, id: `${name}-${entry.version}` }) as typeof entry),
      );
    // A photograph's worth of bytes, so that copying takes its time.
    const bytes = new Uint8Array(8_000_000).map((_, at) => (at * 2_654_435_761) >>> 13);
    await rig.store.bench.append({ batch: null, entries: [], intent: null, blobs: [{ sha256: hashOf(bytes), kind: 'photo', bytes }] });
  });
  afterAll(() => rig.close());

  it('are put back into another folder, where every batch reads the same to the letter, and the record goes on', async () => {
    await rig.backups.now();
    const { backups, problem, folder: kept } = rig.backups.page();
    expect([backups.map(({ realm }) => realm), problem]).toEqual([['practice'], null]);
    const dir = folder();
    const restored = restore(join(kept, backups[0]?.name ?? ''), dir);
    expect(restored).toMatchObject({ realm: 'practice', lines: rig.store.bench.seq() + rig.store.workshop.seq() });
    const other = await appRig('practice', dir);
    expect(other.store.health()).toMatchObject({ ok: true, readOnly: null });
    expect(await reviews(other)).toEqual(await reviews(rig));
    await other.enter([{ ...BATCHES.begun()[0], batch: 'further', id: 'further-1' } as never]);
    expect(await other.store.verify()).toMatchObject({ ok: true });
    await other.close();
  });

  it('are never put over anything, and a damaged one is put nowhere', () => {
    const dir = folder();
    const copy = join(folder(), 'copy.sqlite');
    copyRecord(rig.store.file, copy);
    restore(copy, dir);
    const before = readFileSync(join(dir, 'practice.sqlite'));
    expect(() => restore(copy, dir)).toThrow(/is there already/);
    expect(readFileSync(join(dir, 'practice.sqlite')).equals(before)).toBe(true);
    const bytes = readFileSync(copy);
    const at = bytes.indexOf('"reason":"glass in the pot"');
    bytes.write('"reason":"paint in the pot"', at);
    writeFileSync(copy, bytes);
    const empty = folder();
    expect(() => restore(copy, empty)).toThrow(StoreProblem);
    expect(readdirSync(empty)).toEqual([]);
    expect(() => restore(join(empty, 'none.sqlite'), empty)).toThrow(/There is no file/);
  });

  it('are looked at after writing: a copy that lost lines which stood before is none', async () => {
    const dir = folder();
    copyRecord(rig.store.file, join(dir, 'practice.sqlite'));
    await rig.enter([{ ...BATCHES.begun()[0], batch: 'newest', id: 'newest-1' } as never]);
    // The heads are noted as soon as the commit has been answered.
    await new Promise((resolve) => setImmediate(() => setImmediate(resolve)));
    copyFileSync(rig.store.file.replace('.sqlite', '.heads'), join(dir, 'practice.heads'));
    expect(() => copyRecord(join(dir, 'practice.sqlite'), join(dir, 'copy.sqlite'))).toThrow(/missing/);
    expect(readdirSync(dir).filter((name) => name.startsWith('copy'))).toEqual([]);
  });

  it('are made by a process of their own, and one that is stopped is none', async () => {
    const to = join(folder(), 'apart.sqlite');
    expect(await copyApart(rig.store.file, to).done).toMatchObject({ file: to, lines: lookAt(to, null) });
    const stopped = copyApart(rig.store.file, join(folder(), 'stopped.sqlite'));
    stopped.stop();
    await expect(stopped.done).rejects.toThrow(/broken off/);
  }, 120_000);

  it('killed at any moment leave nothing under a name of their own, and the record as it was', async () => {
    const dir = folder();
    const to = join(dir, 'practice-2026-11-28T10-15-00Z.sqlite');
    for (const after of [0, 60]) {
      const child = spawn(process.execPath, ['--import', 'tsx', 'server/backup/program.ts', rig.store.file, to], { stdio: 'ignore' });
      const ended = new Promise((resolve) => child.once('exit', (_, signal) => resolve(signal)));
      await new Promise<void>((resolve) => {
        const watching = watch(dir, (_, name) => {
          if (name?.includes(UNFINISHED) !== true) return;
          watching.close();
          setTimeout(resolve, after);
        });
      });
      child.kill('SIGKILL');
      expect(await ended).toBe('SIGKILL');
      // A kill that came too late has left a whole one.
      for (const name of readdirSync(dir).filter((one) => !one.includes(UNFINISHED))) lookAt(join(dir, name), null);
    }
    tidy(dir);
    expect(readdirSync(dir).filter((name) => name.includes(UNFINISHED))).toEqual([]);
    expect(await rig.store.verify()).toMatchObject({ ok: true });
    expect(copyRecord(rig.store.file, to).lines).toBe(lookAt(to, null));
  });
});

describe('which copies are kept', () => {
  const DAY = 86_400_000;
  const begin = Date.UTC(2024, 0, 1, 6);

  it('a name says whose and when, and anything else in the folder is left alone', () => {
    const name = backupName('real', Date.UTC(2026, 10, 28, 10, 15));
    expect(name).toBe('real-2026-11-28T10-15-00Z.sqlite');
    expect(backupsAmong([name, 'practice-schema-1-2026-11-28T10-15-00-000Z.sqlite', `${name}${UNFINISHED}`, 'notes.txt'])).toEqual([
      { name, realm: 'real', wall: Date.UTC(2026, 10, 28, 10, 15) },
    ]);
  });

  it('of three years of days, the newest seven and the last of twelve months; of each record for itself', () => {
    let kept = backupsAmong([]);
    for (let day = 0; day < 1096; day += 1) {
      const wall = begin + day * DAY;
      kept = kept.concat((['real', 'practice'] as const).map((realm) => ({ name: backupName(realm, wall), realm, wall })));
      const gone = new Set(outlived(kept));
      kept = kept.filter((one) => !gone.has(one));
    }
    const real = kept.filter(({ realm }) => realm === 'real').map(({ name }) => name.slice(5, 15));
    expect(real.toReversed().join(' ')).toBe(
      '2026-12-31 2026-12-30 2026-12-29 2026-12-28 2026-12-27 2026-12-26 2026-12-25' +
        ' 2026-11-30 2026-10-31 2026-09-30 2026-08-31 2026-07-31 2026-06-30 2026-05-31' +
        ' 2026-04-30 2026-03-31 2026-02-28 2026-01-31',
    );
    expect(kept.filter(({ realm }) => realm === 'practice')).toHaveLength(real.length);
  });
});
