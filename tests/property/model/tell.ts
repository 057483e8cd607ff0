import { verify } from '#lib/record/verify';
import { foldBatch } from '#server/bench/restore';
import { createModelScreen } from '#tests/support/model/screen';
import type { Entry } from '#lib/work/batch/index';
import { act } from './act';
import type { Story } from './actions';
import { INVARIANTS } from './invariants/index';
import type { Look } from './invariants/index';
import { Play } from './play';
import type { Rules } from './play';
import { RecordReader, same } from './record';

/** How often each thing came about in one run: a model that never accepts a weight proves nothing. */
export interface Tally {
  steps: number;
  readonly kinds: Map<string, number>;
}

export const newTally = (): Tally => ({ steps: 0, kinds: new Map() });

export const count = (tally: Tally, kind: string, by = 1): void => void tally.kinds.set(kind, (tally.kinds.get(kind) ?? 0) + by);

/** An invariant that did not hold, after which step, and what the step was. */
export class Broken extends Error {
  readonly invariant: string;
  constructor(name: string, why: readonly string[], step: number, what: unknown) {
    super(`${name}\n  ${why.join('\n  ')}\n  after step ${step}: ${JSON.stringify(what)}`);
    this.name = 'Broken';
    this.invariant = name;
  }
}

export interface Telling {
  readonly tally?: Tally;
  /** Other rules than the product's, to see that a missing one is noticed. */
  readonly rules?: Rules;
  /** Look for these alone. */
  readonly only?: readonly string[];
}

/** Plays one story to its end and looks after every step. Throws `Broken` when something does not hold. */
export const tell = async (story: Story, { tally = newTally(), rules, only }: Telling = {}): Promise<void> => {
  const invariants = only === undefined ? INVARIANTS : INVARIANTS.filter(({ name }) => only.includes(name));
  const play = new Play(story, rules);
  const record = new RecordReader();
  const look = async (step: number, what: unknown): Promise<void> => {
    tally.steps += 1;
    const seen = await newLook(play, record);
    for (const { entry } of seen.fresh) count(tally, kindOf(entry));
    for (const invariant of invariants) {
      const why = invariant.check(seen);
      if (why.length > 0) throw new Broken(invariant.name, why, step, what);
    }
  };
  try {
    await play.start();
    play.lease('tablet', 'take');
    await act(play, { do: 'help', times: 1 });
    await look(0, 'start');
    for (const [index, action] of story.actions.entries()) {
      await act(play, action);
      await look(index + 1, action);
      if (action.do === 'crash') count(tally, 'crash');
    }
    play.disk.mode = 'prompt';
    play.disk.goOn();
    await act(play, { do: 'wait', ms: 400, hear: true });
    await look(story.actions.length + 1, 'the end');
    await lastLook(play);
  } finally {
    play.end();
  }
};

const kindOf = (entry: Entry): string =>
  entry.kind === 'weight-accepted' ? `accepted ${entry.body.how}` : entry.kind === 'alarm-raised' ? `alarm ${entry.body.code}` : entry.kind;

const newLook = async (play: Play, record: RecordReader): Promise<Look> => {
  const lines = await play.disk.kept.lines(record.seq, 10_000);
  const firsts = new Set(play.disk.appends.map(({ ids }) => ids[0]));
  const fresh: Look['fresh'][number][] = [];
  let commit = 0;
  for (const line of lines) {
    const { batch, id } = JSON.parse(line.text) as Entry;
    const before = record.batches.get(batch)?.state ?? null;
    commit = firsts.has(id) ? 0 : commit + 1;
    for (const entry of record.read([line])) fresh.push({ entry, before, commit });
  }
  return { play, record, fresh, quiet: !play.disk.busy && play.flying === 0 };
};

/** What is too dear to look at after every step: the whole chain, every batch read back as a restart reads it, and a page that joins at the end. */
const lastLook = async (play: Play): Promise<void> => {
  const lines = await play.disk.kept.lines(0, 1_000_000);
  const { breaks } = verify(lines);
  if (breaks.length > 0) throw new Broken('the chain verifies', [JSON.stringify(breaks)], -1, 'the end');
  const { batch } = play;
  if (batch === null) return;
  if (!same(await foldBatch(play.disk.kept, batch.id), batch))
    throw new Broken('a restart reads what was remembered', [batch.id], -1, 'the end');
  const guest = createModelScreen('guest', () => play.time.now);
  guest.connect(play.boot.bench);
  await new Promise((resolve) => setImmediate(resolve));
  const joined = guest.state().batch;
  guest.cut();
  if (!same(joined, batch)) throw new Broken('a page that joins late has what the server has', [String(joined?.version)], -1, 'the end');
};
