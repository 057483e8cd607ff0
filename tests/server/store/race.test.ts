import Database from 'better-sqlite3';
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { lockDirectory } from '#server/store/lock';
import { expectedSchema, MIGRATIONS, schemaText } from '#server/store/migrate';
import { openStore } from '#server/store/open';
import { StoreProblem } from '#server/store/problem';
import { appendOf, entryOf } from '#tests/support/appends';
import { runChild } from '#tests/support/child';
import type { Child } from '#tests/support/child';
import { storeRig } from '#tests/support/store-rig';
import type { Rig } from '#tests/support/store-rig';

const CHILD = join(import.meta.dirname, '../../support/store-child.ts');

describe('one server per data directory', () => {
  let rig: Rig;
  const children: Child[] = [];
  const child = (...args: string[]): Child => {
    const one = runChild(CHILD, args);
    children.push(one);
    return one;
  };
  beforeEach(() => {
    rig = storeRig();
  });
  afterEach(async () => {
    for (const one of children.splice(0)) {
      one.process.kill('SIGKILL');
      await one.ended();
    }
    rig.remove();
  });

  it('refuses the second of two processes, and says who holds the folder and what to do', async () => {
    const both = [child('hold', rig.dir), child('hold', rig.dir)];
    const first = await Promise.all(both.map((one) => one.line('')));
    expect(first.filter((line) => line === 'open')).toHaveLength(1);
    const winner = both[first.indexOf('open')];
    const refusal = first.find((line) => line.startsWith('refused'));
    expect(refusal).toMatch(/is using the data folder .* Nothing was opened and nothing was changed\. .*--data DIR/);
    if (refusal?.includes('process')) expect(refusal).toContain(`process ${winner?.process.pid}`);
  });

  it('lets the next one in as soon as the holder was killed', async () => {
    const holder = child('hold', rig.dir);
    await holder.line('open');
    await expect(openStore(rig.options)).rejects.toThrow(`process ${holder.process.pid}`);
    holder.process.kill('SIGKILL');
    await holder.ended();
    const store = await openStore(rig.options);
    await store.bench.append(appendOf([entryOf('a', 1)]));
    await store.close();
  });

  it('lets the next one in after a close, and leaves no data in the lock', async () => {
    const store = await openStore(rig.options);
    await expect(openStore(rig.options)).rejects.toThrow(StoreProblem);
    await store.close();
    const again = await openStore(rig.options);
    expect(statSync(join(rig.dir, 'in-use.lock')).size).toBe(0);
    await again.close();
  });

  it('lets one program open two realms under one lock, and no realm twice', async () => {
    const lock = lockDirectory(rig.dir);
    const practice = await openStore({ ...rig.options, lock });
    const real = await openStore({ ...rig.options, realm: 'real', lock });
    await expect(openStore({ ...rig.options, lock })).rejects.toThrow('open in this program already');
    await practice.close();
    await openStore({ ...rig.options, lock }).then((store) => store.close());
    await real.close();
    await expect(openStore(rig.options)).rejects.toThrow('is using the data folder');
    lock.release();
    await openStore(rig.options).then((store) => store.close());
    expect(readdirSync(rig.dir)).toEqual(expect.arrayContaining(['practice.sqlite', 'real.sqlite']));
  });
});

describe('two migrators at once', () => {
  it('B16: one of them migrates, the other waits and finds nothing to do', async () => {
    const rig = storeRig();
    const both = [runChild(CHILD, ['migrate', rig.dir]), runChild(CHILD, ['migrate', rig.dir])];
    await Promise.all(both.map((one) => one.line('ready')));
    for (let round = 0; round < 20; round += 1) {
      // In WAL mode beforehand: SQLite does not wait for a lock while it changes the mode, and that is not what is raced here.
      const file = new Database(join(rig.dir, `${round}.sqlite`));
      file.pragma('journal_mode = WAL');
      file.close();
      for (const one of both) one.process.stdin?.write('go\n');
      const said = await Promise.all(both.map((one) => one.line(`round ${round} `)));
      expect(said.toSorted()).toEqual([`round ${round} from 0`, `round ${round} from ${MIGRATIONS.length}`]);
      const db = new Database(join(rig.dir, `${round}.sqlite`));
      expect(schemaText(db)).toBe(expectedSchema(MIGRATIONS.length));
      expect(db.prepare('select count(*) from migrations').pluck().get()).toBe(MIGRATIONS.length);
      db.close();
    }
    for (const one of both) one.process.stdin?.end();
    await Promise.all(both.map((one) => one.ended()));
    rig.remove();
  }, 120_000);
});
