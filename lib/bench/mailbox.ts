import { NotCanonical } from '#lib/record/canonical';
import type { Append, Journal, Json, JournalLine } from '#lib/record/journal';
import { JournalReadOnly, labelled, RepeatedIntent } from '#lib/record/journal';
import type { EntryId } from '#lib/units/id';
import { decide as decideByRules, evolve, fold, toEntry } from '#lib/work/batch/index';
import type { BatchState, Begins, Command, Decision, Draft, Entry, Refusal } from '#lib/work/batch/index';
import type { IntentAnswer } from '#lib/protocol/intent';

export interface MailboxParts {
  readonly journal: Pick<Journal, 'seq' | 'append' | 'answerTo'>;
  /** Unique for ever. */
  readonly newEntryId: () => EntryId;
  /** The batch at this bench when the mailbox opens, folded from the journal. */
  readonly batch: BatchState | null;
  /** What decides; left out, the rules of the batch. */
  readonly decide?: typeof decideByRules;
  /** After each commit, before anyone is answered. Must not throw. */
  readonly committed: (commit: Commit) => void;
  /** A write that failed for a reason the journal has no name for. */
  readonly failed: (error: unknown) => void;
}

/** What one decision put into the record. */
export interface Commit {
  /** Sequence number of the journal before it. */
  readonly from: number;
  /** And after it, with the first lines of another batch that it may have begun. */
  readonly seq: number;
  readonly lines: readonly JournalLine[];
  readonly entries: readonly Entry[];
  readonly before: BatchState | null;
  readonly batch: BatchState;
}

/** A command with the blobs its entries name, stored in their transaction. */
export interface Letter {
  readonly command: Command;
  readonly blobs?: Append['blobs'];
  /** Asked when its turn comes: why it may not be done any more. A disk that is late must not lengthen anybody's say. */
  readonly withdrawn?: (() => Refusal | null) | undefined;
}

/**
 * One per bench. Commands are decided one at a time, each upon what the one before it left: decide → entries → journal → evolve. Memory
 * changes only after the commit is on disk, so that what was refused, or could not be written, has not happened.
 */
export interface Mailbox {
  batch(): BatchState | null;
  /** Never rejects. */
  send(letter: Letter): Promise<IntentAnswer>;
  /** A parked batch comes to this bench with the command that takes it up; without a commit the one before it stays. */
  sendTo(batch: BatchState, letter: Letter): Promise<IntentAnswer>;
  /** About a batch that need not be here, nor comes here by it: folded when its turn comes. The one that is here is told as ever. */
  aside(load: () => Promise<BatchState | null>, letter: Letter): Promise<IntentAnswer>;
  /** Resolves when everything sent before is decided. */
  idle(): Promise<void>;
}

export const createMailbox = (parts: MailboxParts): Mailbox => {
  const { decide = decideByRules } = parts;
  let batch = parts.batch;
  let tail: Promise<unknown> = Promise.resolve();

  const queued = (state: () => BatchState | null | Promise<BatchState | null>, letter: Letter, comes = true): Promise<IntentAnswer> => {
    const answer = tail.then(() => handle(state, letter, comes));
    tail = answer;
    return answer;
  };

  const handle = async (
    find: () => BatchState | null | Promise<BatchState | null>,
    { command, blobs = [], withdrawn }: Letter,
    comes: boolean,
  ): Promise<IntentAnswer> => {
    try {
      const found = find();
      // Only what has to be read gives way: at the bench a decision follows upon its command at once.
      const state = found instanceof Promise ? await found : found;
      const no = withdrawn?.() ?? null;
      const decision: Decision = no === null ? decide(state, command) : { ok: false, refusal: no };
      if (!decision.ok) return (await repeated(command)) ?? { ok: false, refusal: decision.refusal };
      const entries = completed(state, command, decision.drafts);
      if ('refusal' in entries) return { ok: false, ...entries };
      const others = decision.begins === undefined ? [] : begunOf(state, command, decision.begins);
      return await commit(state, command, entries, { others, blobs, comes });
    } catch (error) {
      if (error instanceof RepeatedIntent) return again(error.answer);
      if (error instanceof JournalReadOnly) return unwritten(error.message);
      parts.failed(error);
      return unwritten(error instanceof Error ? error.message : String(error));
    }
  };

  /** What cannot be hashed is the command's own fault; the same said later, by the journal, is the program's. */
  const completed = (...parts: Parameters<typeof entriesOf>): readonly Entry[] | { readonly refusal: Refusal } => {
    try {
      return entriesOf(...parts);
    } catch (error) {
      if (!(error instanceof NotCanonical)) throw error;
      return { refusal: { code: 'malformed', params: { why: error.message } } };
    }
  };

  const entriesOf = (state: BatchState | null, command: Command, drafts: readonly Draft[]): readonly Entry[] => {
    const { batch, by, via, intent, boot, mono, wall, offsetMin } = command;
    const realm = command.kind === 'start' ? command.body.realm : (state?.realm ?? 'test');
    const version = (state?.version ?? 0) + 1;
    return drafts.map((draft, i) =>
      toEntry(draft, { id: parts.newEntryId(), batch, version: version + i, realm, v: 1, by, via, intent, boot, mono, wall, offsetMin }),
    );
  };

  /** Of a batch that does not come to the bench by it. */
  const begunOf = (state: BatchState | null, command: Command, { batch: id, drafts }: Begins): readonly Entry[] => {
    const { by, via, intent, boot, mono, wall, offsetMin } = command;
    const head = { batch: id, realm: state?.realm ?? 'test', v: 1, by, via, intent, boot, mono, wall, offsetMin } as const;
    return drafts.map((draft, i) => toEntry(draft, { ...head, id: parts.newEntryId(), version: i + 1 }));
  };

  const commit = async (
    state: BatchState | null,
    command: Command,
    entries: readonly Entry[],
    { others, blobs, comes }: { readonly others: readonly Entry[]; readonly blobs: Append['blobs']; readonly comes: boolean },
  ): Promise<IntentAnswer> => {
    const from = parts.journal.seq();
    const seq = from + entries.length + others.length;
    const answer: IntentAnswer = { ok: true, seq, version: (state?.version ?? 0) + entries.length, repeated: false };
    // Nothing to keep: an agreed no-op is answered as done and written nowhere.
    if (entries.length === 0) return answer;
    // Before the write: should the entries not follow from the state, nothing is kept either.
    const after = entries.reduce<BatchState | null>(evolve, state);
    if (after === null) return answer;
    fold(others);
    const lines = await parts.journal.append({
      batch: command.batch,
      entries: [...entries, ...others].map(labelled),
      intent: command.intent === null ? null : { id: command.intent, answer },
      blobs,
    });
    if (!comes) return answer;
    batch = after;
    parts.committed({ from, seq, lines: lines.slice(0, entries.length), entries, before: state, batch: after });
    return answer;
  };

  /** A retry whose first sending was committed: the state moved on by it, so it is refused now, yet it was done. */
  const repeated = async (command: Command): Promise<IntentAnswer | null> => {
    const stored = command.intent === null ? null : await parts.journal.answerTo(command.intent);
    return stored === null ? null : again(stored);
  };

  return {
    batch: () => batch,
    send: (letter) => queued(() => (letter.command.kind === 'start' ? null : batch), letter),
    sendTo: (other, letter) => queued(() => other, letter),
    aside: (load, letter) => (letter.command.batch === batch?.id ? queued(() => batch, letter) : queued(load, letter, false)),
    idle: async () => void (await tail),
  };
};

const again = (stored: Json): IntentAnswer => {
  const answer = stored as unknown as IntentAnswer;
  return answer.ok ? { ...answer, repeated: true } : answer;
};

const unwritten = (why: string): IntentAnswer => {
  const refusal: Refusal = { code: 'read-only', params: { why } };
  return { ok: false, refusal };
};
