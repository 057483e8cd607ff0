import { NotCanonical } from '#lib/record/canonical';
import type { Journal, Json, JournalLine } from '#lib/record/journal';
import { JournalReadOnly, labelled, RepeatedIntent } from '#lib/record/journal';
import type { IntentAnswer } from '#lib/protocol/intent';
import type { BarsId, EntryId } from '#lib/units/id';
import { decide, evolve, fold, isBarsId } from '#lib/work/bars/index';
import type { BarsCommand, BarsDecision, BarsEntry, BarsState } from '#lib/work/bars/index';
import { toEntry } from '#lib/work/bars/complete';
import { upcastLines } from '#lib/work/bars/upcast';
import type { Realm, Refusal } from '#lib/work/batch/index';
import { unreadableStream } from '../store/unreadable-stream';

export interface BarsDeskParts {
  readonly journal: Pick<Journal, 'seq' | 'append' | 'answerTo' | 'linesOf'>;
  readonly realm: Realm;
  readonly newEntryId: () => EntryId;
  /** A write that failed for a reason the journal has no name for. */
  readonly trouble: (what: string, error: unknown) => void;
}

/**
 * Everything that is entered about bars, one command at a time, each upon what the one before it left. The journal is the bench's own: an
 * append runs to its commit without giving way, so that no weight of a batch waits for bars or is mixed with them.
 */
export interface BarsDesk {
  /** `completed`: asked when its turn comes, with the lot as it then stands. Never rejects. */
  send(lot: BarsId, completed: (state: BarsState | null) => BarsCommand | Refusal): Promise<IntentAnswer>;
  /** Entries of one lot; none: there is no such lot. Throws `StoreProblem` for a line that cannot be read. */
  entries(lot: BarsId): Promise<readonly BarsEntry[]>;
  state(lot: BarsId): Promise<BarsState | null>;
  idle(): Promise<void>;
}

/** So many lots stay folded. */
const KEPT = 32;

export const createBarsDesk = ({ journal, realm, newEntryId, trouble }: BarsDeskParts): BarsDesk => {
  const kept = new Map<BarsId, BarsState>();
  let tail: Promise<unknown> = Promise.resolve();

  const entries = async (lot: BarsId): Promise<readonly BarsEntry[]> => (isBarsId(lot) ? entriesIn(await journal.linesOf(lot), lot) : []);
  const state = async (lot: BarsId): Promise<BarsState | null> => kept.get(lot) ?? fold(await entries(lot));
  const keep = (after: BarsState): void => {
    kept.delete(after.id);
    kept.set(after.id, after);
    const [oldest] = kept.keys();
    if (kept.size > KEPT && oldest !== undefined) kept.delete(oldest);
  };

  const handle = async (lot: BarsId, completed: Parameters<BarsDesk['send']>[1]): Promise<IntentAnswer> => {
    try {
      const before = await state(lot);
      const command = completed(before);
      if ('code' in command) return { ok: false, refusal: command };
      const decision: BarsDecision = decide(before, command);
      if (!decision.ok) return (await repeated(command)) ?? { ok: false, refusal: decision.refusal };
      return await commit(before, command, entered(before, command, decision.drafts));
    } catch (error) {
      if (error instanceof RepeatedIntent) return again(error.answer);
      if (error instanceof NotCanonical) return refused({ code: 'malformed', params: { why: error.message } });
      if (!(error instanceof JournalReadOnly)) trouble('what was said of bars could not be entered', error);
      return refused({ code: 'read-only', params: { why: error instanceof Error ? error.message : String(error) } });
    }
  };

  const entered = (
    before: BarsState | null,
    { lot, by, via, intent, boot, mono, wall, offsetMin }: BarsCommand,
    drafts: Extract<BarsDecision, { ok: true }>['drafts'],
  ): readonly BarsEntry[] => {
    const version = (before?.version ?? 0) + 1;
    const head = { batch: lot, realm, v: 1, by, via, intent, boot, mono, wall, offsetMin } as const;
    return drafts.map((draft, i) => toEntry(draft, { ...head, id: newEntryId(), version: version + i }));
  };

  const commit = async (before: BarsState | null, { lot, intent }: BarsCommand, made: readonly BarsEntry[]): Promise<IntentAnswer> => {
    const answer: IntentAnswer = {
      ok: true,
      seq: journal.seq() + made.length,
      version: (before?.version ?? 0) + made.length,
      repeated: false,
    };
    // Before the write: should the entries not follow from the state, nothing is kept either.
    const after = made.reduce<BarsState | null>(evolve, before);
    if (after === null || made.length === 0) return answer;
    await journal.append({
      batch: lot,
      entries: made.map(labelled),
      intent: intent === null ? null : { id: intent, answer },
      blobs: [],
    });
    keep(after);
    return answer;
  };

  /** A retry whose first sending was committed: it is refused now, yet it was done. */
  const repeated = async ({ intent }: BarsCommand): Promise<IntentAnswer | null> => {
    const stored = intent === null ? null : await journal.answerTo(intent);
    return stored === null ? null : again(stored);
  };

  return {
    send(lot, completed) {
      const answer = tail.then(() => handle(lot, completed));
      tail = answer;
      return answer;
    },
    entries,
    state,
    idle: async () => void (await tail),
  };
};

const refused = (refusal: Refusal): IntentAnswer => ({ ok: false, refusal });

const again = (stored: Json): IntentAnswer => {
  const answer = stored as unknown as IntentAnswer;
  return answer.ok ? { ...answer, repeated: true } : answer;
};

const entriesIn = (lines: readonly JournalLine[], lot: BarsId): readonly BarsEntry[] => {
  const read = upcastLines(lines.map(({ text }) => text));
  if (read.ok) return read.entries;
  throw unreadableStream(`bars ${lot}`, read.at, read.failure);
};
