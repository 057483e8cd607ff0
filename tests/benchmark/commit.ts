/**
 * What our commit costs beside the least a commit can cost: `npm run bench:commit`.
 *
 * Ours: a command of a whole batch put into the mailbox until its answer is there: decided, checked, sealed (canonical text,
 * salt, hashes), committed with its answer, its strip and its row of the list, and evolved. The append alone is shown as well.
 * Bare: one better-sqlite3 transaction (WAL, synchronous FULL) that inserts the very same rows and bytes, made beforehand,
 * into the same tables. Both in one run, on one disk, taking turns.
 *
 * Measured twice. As a bench works: the program is started, then comes a batch or two, as often as asked. And on and on without
 * a start, until no log has to grow any more: there the two differ by what deciding, sealing and folding cost the processor
 * alone, some tenth of a millisecond, however fast the disk is. The limit is held against the first.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { setImmediate as turn, setTimeout as sleep } from 'node:timers/promises';
import { parseArgs } from 'node:util';
import { createMailbox } from '#lib/bench/mailbox';
import type { Letter } from '#lib/bench/mailbox';
import type { Append } from '#lib/record/journal';
import { as } from '#lib/units/id';
import { openStore } from '#server/store/open';
import { saltsFrom } from '#tests/support/salts';
import { KeptLog, STILL } from '#tests/support/store-rig';
import { assertSameRows, bareWriter, rowMaker } from './bare-commit';
import type { Rows } from './bare-commit';
import { batchLetters } from './batch-letters';

const LIMIT = 1.2;

const { values } = parseArgs({
  options: {
    starts: { type: 'string', default: '12' },
    batches: { type: 'string', default: '2' },
    pace: { type: 'string', default: '0' },
    dir: { type: 'string', default: process.cwd() },
  },
});
const paceMs = Number(values.pace);

/** Milliseconds of each commit. */
interface Times {
  readonly mailbox: number[];
  readonly append: number[];
  readonly bare: number[];
}

/** Each commit begins from an idle loop, as a command does, and pays for what the one before it left to be done. */
const pause = (): Promise<void> => (paceMs === 0 ? turn() : sleep(paceMs));

const timed = async <T>(into: number[], act: () => T | Promise<T>): Promise<T> => {
  const from = performance.now();
  const done = await act();
  into.push(performance.now() - from);
  return done;
};

const ourWriter = async (dir: string, salts: () => Uint8Array, newId: () => string, times: Times) => {
  const store = await openStore({ dir, realm: 'practice', clock: STILL, log: new KeptLog(), random: salts });
  let written: Append | null = null;
  const mailbox = createMailbox({
    journal: {
      seq: () => store.bench.seq(),
      answerTo: (intent) => store.bench.answerTo(intent),
      append: (what) => {
        written = what;
        return timed(times.append, () => store.bench.append(what));
      },
    },
    batch: null,
    newEntryId: () => as(newId()),
    committed: () => undefined,
    failed: (error) => {
      throw error;
    },
  });
  return {
    /** Sends one letter and returns what it wrote. */
    send: async (letter: Letter): Promise<Append> => {
      written = null;
      const answer = await timed(times.mailbox, () => mailbox.send(letter));
      if (!answer.ok) throw new Error(`${letter.command.kind} was refused: ${JSON.stringify(answer.refusal)}`);
      if (written === null) throw new Error(`${letter.command.kind} wrote nothing`);
      return written;
    },
    close: () => store.close(),
  };
};

/** Starts both, records some batches with both, and ends both; as often as asked, on the same two files. */
const measure = async (starts: number, batches: number): Promise<Times> => {
  const dir = mkdtempSync(join(values.dir, '.bench-commit-'));
  const [file, bareFile] = [join(dir, 'practice.sqlite'), join(dir, 'bare.sqlite')];
  const times: Times = { mailbox: [], append: [], bare: [] };
  const salts = saltsFrom(0);
  const rowsOf = rowMaker(saltsFrom(0));
  let ids = 0;
  let batch = 0;
  try {
    for (let start = 0; start < starts; start += 1) {
      const ours = await ourWriter(dir, salts, () => `entry-${(ids += 1)}`, times);
      const bare = bareWriter(bareFile);
      let waiting: Rows | null = null;
      const turnOfBare = async (): Promise<void> => {
        const rows = waiting;
        if (rows === null) return;
        await pause();
        await timed(times.bare, () => bare.write(rows));
      };
      for (let n = 0; n < batches; n += 1) {
        for (const letter of batchLetters(`batch-${(batch += 1)}`)) {
          // Who goes first changes, so that neither always finds the disk as the other left it.
          const bareFirst = times.mailbox.length % 2 === 1;
          if (bareFirst) await turnOfBare();
          await pause();
          const what = await ours.send(letter);
          if (!bareFirst) await turnOfBare();
          waiting = rowsOf(what);
        }
      }
      await turnOfBare();
      bare.close();
      await ours.close();
    }
    assertSameRows(file, bareFile);
    return times;
  } finally {
    rmSync(dir, { recursive: true, force: true });
  }
};

const percentile = (times: readonly number[], p: number): number =>
  times.toSorted((a, b) => a - b)[Math.floor((times.length - 1) * p)] ?? Number.NaN;

/** Prints a table and returns how many times the bare commit ours takes, by the median. */
const report = (title: string, { mailbox, append, bare }: Times): number => {
  console.log(title);
  const medians = Object.entries({
    'mailbox: command to answer': mailbox,
    'of it, journal.append': append,
    'bare WAL+FULL transaction': bare,
  }).map(([name, all]) => {
    const kept = all.slice(Math.floor(all.length / 10));
    const p50 = percentile(kept, 0.5);
    console.log(`  ${name.padEnd(28)} p50 ${p50.toFixed(3)} ms   p99 ${percentile(kept, 0.99).toFixed(3)} ms   (${kept.length} commits)`);
    return p50;
  });
  const [ours = Number.NaN, appended = Number.NaN, least = Number.NaN] = medians;
  const beside = (ms: number): string => `${(ms / least).toFixed(3)} (${(ms - least).toFixed(3)} ms more)`;
  console.log(`  p50 beside the bare transaction: mailbox ${beside(ours)}, append alone ${beside(appended)}`);
  return ours / least;
};

const ratio = report(
  `as a bench works: ${values.starts} starts, ${values.batches} batches after each`,
  await measure(Number(values.starts), Number(values.batches)),
);
console.log(`  at most ${LIMIT}: ${ratio <= LIMIT ? 'held' : 'NOT held'}`);
report('on and on, without a start', await measure(1, Number(values.starts) * Number(values.batches)));
if (ratio > LIMIT) process.exitCode = 1;
