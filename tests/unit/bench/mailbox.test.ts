import { describe, expect, it } from 'vitest';
import { createMailbox } from '#lib/bench/mailbox';
import type { Commit, Mailbox } from '#lib/bench/mailbox';
import { laneOfCommit } from '#lib/bench/pipeline/lane';
import { as } from '#lib/units/id';
import type { BatchId, BootId, EntryId, IntentId, PersonId } from '#lib/units/id';
import { decide } from '#lib/work/batch/index';
import type { Command, CommandBodies, CommandHead, CommandKind, Decision } from '#lib/work/batch/index';
import { planOf } from '#tests/support/batch';
import { deferred } from '#tests/support/deferred';
import { MemoryJournal } from '#tests/support/memory-journal';

const HEAD: Omit<CommandHead, 'expectedVersion' | 'intent'> = {
  batch: as<BatchId>('batch-1'),
  by: as<PersonId>('maker'),
  via: 'screen',
  role: 'maker',
  boot: as<BootId>('boot'),
  mono: 1_000,
  wall: 1_760_000_000_000,
  offsetMin: 120,
  observation: { settled: null, lye: null, oils: null, milk: null, checks: {} },
};

const command = <K extends CommandKind>(
  kind: K,
  body: CommandBodies[K],
  intent: string | null = null,
  version: number | null = null,
): Command => ({ ...HEAD, kind, body, intent: intent === null ? null : as<IntentId>(intent), expectedVersion: version }) as Command;

const START = command('start', { mark: '26-11', plan: planOf('alder-and-oat'), realm: 'practice', bench: 'bench' });

const open = (journal = new MemoryJournal(), decided?: (...asked: Parameters<typeof decide>) => Decision) => {
  let ids = 0;
  const commits: Commit[] = [];
  const failures: unknown[] = [];
  const mailbox: Mailbox = createMailbox({
    journal,
    batch: null,
    ...(decided === undefined ? {} : { decide: decided }),
    newEntryId: () => as<EntryId>(`entry-${(ids += 1)}`),
    committed: (commit) => commits.push(commit),
    failed: (error) => failures.push(error),
  });
  return { mailbox, journal, commits, failures };
};

describe('one mailbox per bench', () => {
  it('writes what was decided, then moves on, then tells', async () => {
    const { mailbox, journal, commits } = open();
    const answer = await mailbox.send({ command: START });
    expect(answer).toEqual({ ok: true, seq: journal.seq(), version: mailbox.batch()?.version, repeated: false });
    expect(commits).toHaveLength(1);
    expect(commits[0]?.from).toBe(0);
    expect(commits[0]?.lines.map((line) => JSON.parse(line.text).kind)).toEqual(commits[0]?.entries.map((entry) => entry.kind));
  });

  it('writes the first entries of a batch that is begun with those it was decided with, or neither; the bench keeps its own', async () => {
    const { mark, plan } = START.body as CommandBodies['start'];
    const drafts = [{ kind: 'batch-started', body: { mark, plan, bench: 'bench', uncheckedScales: [] } }] as const;
    const { mailbox, journal, commits } = open(undefined, (state, asked) => {
      const decision = decide(state, asked);
      return decision.ok && asked.kind === 'note' ? { ...decision, begins: { batch: as<BatchId>('batch-2'), drafts } } : decision;
    });
    await mailbox.send({ command: START });
    const answer = await mailbox.send({ command: command('note', { text: 'one' }) });
    expect(answer).toMatchObject({ ok: true, seq: journal.seq(), version: 2 });
    expect(mailbox.batch()).toMatchObject({ id: 'batch-1', version: 2 });
    expect((await journal.linesOf('batch-2')).map(({ seq }) => seq)).toEqual([3]);
    // A page gets the lines of its batch alone, and goes on from where the journal is.
    const [, commit] = commits;
    const lane = commit === undefined ? null : laneOfCommit(commit);
    expect(lane).toMatchObject({ batch: 'batch-1', from: 1, seq: 3 });
    expect(lane?.lines).toHaveLength(1);
    journal.stop('damaged');
    const seq = journal.seq();
    expect((await mailbox.send({ command: command('note', { text: 'two' }) })).ok).toBe(false);
    expect(journal.seq()).toBe(seq);
  });

  it('changes nothing in memory before the commit is on disk', async () => {
    const journal = new MemoryJournal();
    const held = deferred();
    const append = journal.append.bind(journal);
    journal.append = async (what) => {
      await held.promise;
      return append(what);
    };
    const { mailbox } = open(journal);
    const answer = mailbox.send({ command: START });
    await new Promise((resolve) => setImmediate(resolve));
    expect(mailbox.batch()).toBeNull();
    held.resolve();
    expect((await answer).ok).toBe(true);
    expect(mailbox.batch()?.mark).toBe('26-11');
  });

  it('decides each command upon what the one before it left', async () => {
    const { mailbox } = open();
    const answers = await Promise.all([
      mailbox.send({ command: START }),
      mailbox.send({ command: command('note', { text: 'one' }) }),
      mailbox.send({ command: command('note', { text: 'two' }) }),
    ]);
    expect(answers.map((answer) => answer.ok && answer.version)).toEqual([1, 2, 3]);
  });

  it('A5: the same intent twice is one row, and the second gets the first answer', async () => {
    const { mailbox, journal } = open();
    await mailbox.send({ command: START });
    const note = command('note', { text: 'only once' }, 'intent-00000001');
    const first = await mailbox.send({ command: note });
    const second = await mailbox.send({ command: note });
    expect(first.ok).toBe(true);
    expect(second).toEqual({ ...first, repeated: true });
    expect(journal.seq()).toBe(2);
  });

  it('answers a retry as done although the batch moved on by it', async () => {
    const { mailbox } = open();
    await mailbox.send({ command: START });
    const park = command('park', { reason: 'lunch' }, 'intent-00000002', 1);
    const first = await mailbox.send({ command: park });
    expect(await mailbox.send({ command: park })).toEqual({ ...first, repeated: true });
  });

  it('a record that cannot be written refuses, and the state stays', async () => {
    const { mailbox, journal, failures } = open();
    await mailbox.send({ command: START });
    const before = mailbox.batch();
    journal.stop('the disk is full');
    const answer = await mailbox.send({ command: command('note', { text: 'lost' }) });
    expect(answer).toEqual({ ok: false, refusal: { code: 'read-only', params: { why: 'the disk is full' } } });
    expect(mailbox.batch()).toBe(before);
    expect(failures).toEqual([]);
  });

  it('survives a write that fails in a way nobody named', async () => {
    const { mailbox, journal, failures } = open();
    await mailbox.send({ command: START });
    const append = journal.append.bind(journal);
    journal.append = () => Promise.reject(new Error('odd'));
    expect(await mailbox.send({ command: command('note', { text: 'x' }) })).toMatchObject({ ok: false });
    expect(failures).toHaveLength(1);
    journal.append = append;
    expect(await mailbox.send({ command: command('note', { text: 'y' }) })).toMatchObject({ ok: true, version: 2 });
  });

  it('refuses text that no two machines would hash alike, and writes nothing', async () => {
    const { mailbox, journal } = open();
    await mailbox.send({ command: START });
    expect(await mailbox.send({ command: command('note', { text: 'half \ud800' }) })).toMatchObject({
      ok: false,
      refusal: { code: 'malformed' },
    });
    expect(journal.seq()).toBe(1);
  });
});
