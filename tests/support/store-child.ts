import Database from 'better-sqlite3';
import { writeSync } from 'node:fs';
import { createInterface } from 'node:readline';
import { monotonic, wall } from '#lib/units/time';
import { migrate } from '#server/store/migrate';
import { openStore } from '#server/store/open';
import { StoreProblem } from '#server/store/problem';
import { appendOf, blobOf, entryOf } from './appends';
import { asEnvironmentAsks } from './nobody';

/**
 * A store in a process of its own, to be raced, traced and killed. Arguments: what to do, the data directory (or a file), and
 * how many. Says on its standard output, unbuffered, what it has done.
 */
const [act = '', where = '', count = '0'] = process.argv.slice(2);
const say = (text: string): void => void writeSync(1, `${text}\n`);
const log = { info: () => undefined, warn: () => undefined, error: () => undefined };
const clock = { now: () => monotonic(performance.now()), wall: () => wall(Date.now()), offsetMinutes: () => 0 };
const open = () => openStore({ dir: where, realm: 'practice', clock, log });

const ACTS: Readonly<Record<string, () => Promise<void>>> = {
  /** Appends one entry after another from where the journal stands, and says each after its commit. */
  append: async () => {
    const store = await open();
    const from = store.bench.seq();
    say('open');
    for (let n = 1; n <= Number(count); n += 1) {
      const at = from + n;
      const intent = { id: `intent-${at}`, answer: { ok: true, at } };
      say(`ask ${at}`);
      await store.bench.append(appendOf([entryOf(`batch-${at % 7}`, at, { n: at })], { intent, blobs: [blobOf(`strip ${at}`)] }));
      say(`ack ${at}`);
    }
    say('done');
    await store.close();
  },
  /** Opens and holds until its standard input ends. */
  hold: async () => {
    const store = await open();
    say('open');
    process.stdin.resume().on('end', () => void store.close());
  },
  /** Brings an empty file to the newest schema at every line of its standard input, the next file each time. */
  migrate: async () => {
    say('ready');
    let round = 0;
    for await (const _ of createInterface({ input: process.stdin })) {
      const db = new Database(`${where}/${round}.sqlite`, { timeout: 10_000 });
      say(`round ${round} from ${migrate(db, Date.now(), () => undefined)}`);
      db.close();
      round += 1;
    }
  },
  /** The same commits on a connection that does not sync each: what a trace must be able to tell apart. */
  unsynced: async () => {
    const db = new Database(where);
    db.pragma('journal_mode = WAL');
    db.pragma('synchronous = NORMAL');
    db.exec('create table rows (n integer primary key)');
    say('open');
    for (let n = 1; n <= Number(count); n += 1) db.prepare('insert into rows values (?)').run(n);
    say('done');
    db.close();
  },
};

try {
  asEnvironmentAsks();
  await ACTS[act]?.();
} catch (cause) {
  say(cause instanceof StoreProblem ? `refused ${cause.message}` : `failed ${String(cause)}`);
  // An open standard input would keep a failed program alive, and whoever waits for its next line waiting.
  process.exit(1);
}
