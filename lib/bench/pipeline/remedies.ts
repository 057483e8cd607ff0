import { as, type EntryId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import { evolve, toEntry } from '#lib/work/batch/index';
import type { BatchState, Command, Decision, Want } from '#lib/work/batch/index';
import { withTyped } from '#lib/work/batch/joining';
import {
  NO_FACTS,
  remedyQuestion,
  smallestOn,
  stockAtHand,
  stockByBooks,
  type AnswerRemedy,
  type RemedyAnswer,
  type RemedyFacts,
} from '#lib/work/batch/remedy/index';
import type { AskingMemory, Unentered } from '../conductor/memory';
import type { BenchView, RemedyView } from '../conductor-types';

/** By lot, mg; a lot of which nobody said what came in is not in it. */
export type LotsLeft = () => Promise<ReadonlyMap<string, Milligrams>>;

export interface RemediesParts {
  /** Absent: nobody works ways out on this bench. */
  readonly answer: AnswerRemedy | undefined;
  /** What the batch would be decided to be, were this weight entered now. */
  readonly entering: (want: Want, batch: BatchState) => { readonly command: Command; readonly decision: Decision };
  /** What is left of each lot by the books of the stores; absent: there are none. */
  readonly stock?: LotsLeft | undefined;
  readonly trouble: (what: string, error: unknown) => void;
  /** An answer is there: the bench looks again. */
  readonly answered: () => void;
}

/** Asks for ways out while the conductor wants them, and keeps the newest answer. Nothing waits for it. */
export interface Remedies {
  /** What the conductor sees of it; absent where nobody works ways out. */
  view(): RemedyView | undefined;
  /** After each step: `asking` as the conductor's memory has it, `null` when nothing is wanted. */
  follow(asking: AskingMemory | null, batch: BatchState | null, view: BenchView): void;
}

export const createRemedies = ({ answer, entering, stock, trouble, answered }: RemediesParts): Remedies => {
  let key: string | null = null;
  let newest: RemedyAnswer | null = null;
  let facts: RemedyFacts = NO_FACTS;

  const ask = async (wanted: string, state: BatchState, before: BatchState): Promise<void> => {
    if (answer === undefined) return;
    try {
      if (stock !== undefined) {
        const booked = stockByBooks(state, before, await stock());
        if (wanted !== key) return;
        // A person's word goes before what is written.
        facts = { ...facts, stock: { ...booked, ...facts.stock } };
      }
      const said = await answer(remedyQuestion(state, facts));
      // Another question was asked meanwhile, or the batch went on: this answer says nothing about it.
      if (wanted !== key || said.version !== state.version) return;
      newest = said;
      answered();
    } catch (error) {
      trouble('ways out could not be asked for', error);
    }
  };

  return {
    view: () => (answer === undefined ? undefined : { key, answer: newest, facts }),
    follow(asking, batch, view) {
      if (asking === null || batch === null || asking.key === key) return;
      key = asking.key;
      newest = null;
      const state = asking.unentered === null ? batch : entered(asking.unentered, batch, entering);
      facts = factsOf(state ?? batch, view, asking.at);
      if (state !== null) void ask(asking.key, state, batch);
    },
  };
};

/** The batch as it would stand with the weight in it. The commands that follow an answer enter just that, and are decided anew. */
const entered = (unentered: Unentered, batch: BatchState, entering: RemediesParts['entering']): BatchState | null => {
  const body = { ...unentered, how: 'held', part: false, shortIsFine: false } as const;
  const { command, decision } = entering({ kind: 'accept', body }, batch);
  if (!decision.ok) return null;
  const { by, via, intent, boot, mono, wall, offsetMin } = command;
  return decision.drafts.reduce<BatchState>((before, draft, n) => {
    const id = as<EntryId>(`would-be-${n}`);
    const version = before.version + 1;
    const head = { id, batch: before.id, version, realm: before.realm, v: 1, by, via, intent, boot, mono, wall, offsetMin } as const;
    return evolve(before, toEntry(draft, head));
  }, batch);
};

/** What the bench knows beyond the batch: by its probes, else by what a person typed a short while ago. */
const factsOf = (state: BatchState, { scales, probes, boot }: BenchView, now: number): RemedyFacts => {
  const heard = (use: 'lye' | 'oils') => probes.find((probe) => probe.use === use)?.value ?? null;
  const warmth = withTyped(state, { lye: heard('lye'), oils: heard('oils'), milk: null }, boot ?? state.boot, now);
  return {
    scales: scales.map(({ id, role, division, capacity }) => {
      const smallest = smallestOn(state, { id, division });
      return { id, role, division, capacity, ...(smallest === null ? {} : { smallest }) };
    }),
    stock: stockAtHand(state),
    oils: warmth.oils,
    lye: warmth.lye,
    stirredIn: state.stirredIn,
    leftInJug: state.leftInJug,
  };
};
