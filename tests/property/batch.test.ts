import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import { decide, fold } from '#lib/work/batch/index';
import type { BatchState, Command, Entry, EntryKind, Plan } from '#lib/work/batch/index';
import { review } from '#lib/work/batch/review';
import { upcastLines } from '#lib/work/batch/upcast';
import { SAMPLE_PLANS } from '#lib/work/formula/sample';
import { BatchRig, planOf } from '#tests/support/batch';
import { twoParts } from '#tests/support/pouring';
import { act, progress, restart, turn, wantOf, type Turn } from '#tests/support/batch-acts';

const RUNS = 300;
const POURS = 'two parts, two moulds';
const plans = [...SAMPLE_PLANS.map(({ id }) => id), POURS];
const planNamed = (id: string): Plan => (id === POURS ? twoParts() : planOf(id));
const story = fc.tuple(fc.constantFrom(...plans), fc.array(turn, { minLength: 5, maxLength: 70 }));

const take = (rig: BatchRig, one: Turn): void => {
  if (one.turn === 'restart') return restart(rig);
  if (one.turn === 'progress') return progress(rig);
  const [kind, body, head] = wantOf(rig, one.act);
  rig.send(kind, body, { role: one.act.role, ...head });
};

const sum = (numbers: readonly number[]): number => numbers.reduce((total, one) => total + one, 0);

const played = (plan: string, turns: readonly Turn[], after: (rig: BatchRig, from: number) => void = () => undefined): BatchRig => {
  const rig = new BatchRig().start(planNamed(plan), turns.length % 2 === 0 ? ['the bench'] : []);
  for (const one of turns) {
    const from = rig.entries.length;
    take(rig, one);
    after(rig, from);
  }
  return rig;
};

/** Sums hold: of each line over its unstruck contributions, of each vessel over what it holds, of all over lines, vessels and parts. */
const sumsHold = (batch: BatchState): void => {
  for (const { contributions, actual } of Object.values(batch.lines)) {
    expect(actual).toBe(sum(contributions.filter(({ struck }) => struck === null).map(({ net }) => net)));
  }
  for (const { holds, contents } of Object.values(batch.vessels)) expect(contents).toBe(sum(Object.values(holds)));
  const standing = sum(Object.values(batch.vessels).map(({ contents }) => contents));
  const portions = sum(batch.parts.map(({ mass }) => mass));
  expect(standing + portions).toBe(sum(Object.values(batch.lines).map(({ actual }) => actual)));
};

const numbersIn = (value: unknown): readonly number[] => {
  if (typeof value === 'number') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : [];
};

const classOf = (batch: BatchState, line: string) => Object.values(batch.lines).find(({ plan }) => plan.id === line)?.plan.material.class;

/** What may never stand in a record, whatever was pressed. */
const nothingForbidden = (entries: readonly Entry[], batch: BatchState): void => {
  const episodes = new Set<string>();
  let resumedIn = entries[0]?.boot;
  let joined = false;
  let gates = new Set<string>();
  for (const entry of entries) {
    if (entry.kind === 'resumed') resumedIn = entry.boot;
    if (entry.kind === 'resumed' || entry.kind === 'parked') gates = new Set();
    if (entry.kind === 'joined') joined = true;
    if (entry.kind === 'gate-confirmed' && entry.body.line !== null) gates.add(entry.body.line);
    if (entry.kind !== 'weight-accepted' && entry.kind !== 'weight-typed') continue;
    expect(entry.boot).toBe(resumedIn);
    if (classOf(batch, entry.body.line) === 'hydroxide') {
      expect(joined).toBe(false);
      expect(gates.has(entry.body.line)).toBe(true);
      if (entry.kind === 'weight-accepted') expect(entry.body.how).toBe('held');
    }
    if (entry.kind !== 'weight-accepted') continue;
    if (entry.body.how === 'by-itself') expect(entry.body.lot).not.toBeNull();
    const episode = `${entry.boot} ${entry.body.weighed.episode}`;
    expect(episodes.has(episode)).toBe(false);
    episodes.add(episode);
  }
};

describe('whatever is wanted of a batch', () => {
  it('decide answers, evolve follows, and the sums hold after every step', () => {
    fc.assert(
      fc.property(story, ([plan, turns]) => {
        played(plan, turns, (rig) => sumsHold(rig.now));
      }),
      { numRuns: RUNS },
    );
  });

  it('A6: no episode is accepted twice; hydroxide is held, gated and before joining; nothing by itself without a lot; nothing before a resume', () => {
    fc.assert(
      fc.property(story, ([plan, turns]) => {
        const rig = played(plan, turns);
        nothingForbidden(rig.entries, rig.now);
      }),
      { numRuns: RUNS },
    );
  });

  it('folding the entries, straight or out of their stored text, gives the state that was reached step by step', () => {
    fc.assert(
      fc.property(story, ([plan, turns]) => {
        const rig = played(plan, turns);
        expect(fold(rig.entries)).toEqual(rig.now);
        const read = upcastLines(rig.entries.map((entry) => JSON.stringify(entry)));
        expect(read).toEqual({ ok: true, entries: rig.entries });
        if (read.ok) expect(fold(read.entries)).toEqual(rig.now);
      }),
      { numRuns: RUNS },
    );
  });

  it('every number in every entry, and in the review, is whole', () => {
    fc.assert(
      fc.property(story, ([plan, turns]) => {
        const rig = played(plan, turns);
        for (const number of [...numbersIn(rig.entries), ...numbersIn(review(rig.entries))])
          expect(Number.isSafeInteger(number)).toBe(true);
      }),
      { numRuns: RUNS },
    );
  });

  it('A6: a watcher can do nothing but silence', () => {
    fc.assert(
      fc.property(story, act, ([plan, turns], last) => {
        const rig = played(plan, turns);
        const [kind, body, head] = wantOf(rig, last);
        const decision = decide(rig.state, rig.command(kind, body, { ...head, role: 'watcher' }));
        if (decision.ok) expect(decision.drafts.map((draft) => draft.kind)).toEqual(['alarm-silenced']);
        else if (kind !== 'silence') expect(decision.refusal.code).toBe('not-yours');
      }),
      { numRuns: RUNS },
    );
  });

  it('A5: nothing that was wanted of an older version changes more than alarms, notes and what was observed', () => {
    const harmless = new Set<EntryKind>([
      'alarm-raised',
      'alarm-ended',
      'alarm-silenced',
      'instrument-lost',
      'instrument-back',
      'clock-jumped',
      'noted',
      'photo-kept',
    ]);
    fc.assert(
      fc.property(story, act, ([plan, turns], last) => {
        const rig = played(plan, turns);
        const [kind, body, head] = wantOf(rig, last);
        const decision = decide(rig.state, rig.command(kind, body, { ...head, expectedVersion: rig.now.version - 1 }));
        if (decision.ok) expect(decision.drafts.every((draft) => harmless.has(draft.kind))).toBe(true);
      }),
      { numRuns: RUNS },
    );
  });

  it('numbers that are none are refused and never thrown over', () => {
    const wrong = fc.constantFrom(Number.NaN, Number.POSITIVE_INFINITY, 0.5, -0, 1e15, 2 ** 60);
    const spoil = (value: unknown, number: number): unknown => {
      if (typeof value === 'number') return number;
      if (typeof value !== 'object' || value === null) return value;
      if (Array.isArray(value)) return value.map((one) => spoil(one, number));
      return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, spoil(one, number)]));
    };
    fc.assert(
      fc.property(story, act, wrong, ([plan, turns], last, number) => {
        const rig = played(plan, turns);
        const [kind, body, head] = wantOf(rig, last);
        const command = rig.command(kind, body, { ...head, role: 'maker' });
        const spoilt = { ...command, body: spoil(command.body, number) } as Command;
        const decision = decide(rig.state, spoilt);
        if (numbersIn(command.body).length > 0) expect(decision).toMatchObject({ ok: false, refusal: { code: 'bad-number' } });
      }),
      { numRuns: RUNS },
    );
  });
});

describe('the stories told here', () => {
  it('reach every kind of entry', () => {
    const kinds = new Set<EntryKind>();
    for (const [plan, turns] of fc.sample(story, { numRuns: 4_000, seed: 26_11 })) {
      for (const { kind } of played(plan, turns).entries) kinds.add(kind);
      if (kinds.size === ALL.length) break;
    }
    expect([...kinds].toSorted()).toEqual(ALL.toSorted());
  }, 120_000);
});

const EVERY: Readonly<Record<EntryKind, true>> = {
  'batch-started': true,
  replanned: true,
  'lot-chosen': true,
  'gate-confirmed': true,
  'vessel-set': true,
  'weight-accepted': true,
  'weight-typed': true,
  'weighed-back': true,
  'vessel-lifted': true,
  'weight-questioned': true,
  'question-answered': true,
  struck: true,
  'over-answered': true,
  'remedy-chosen': true,
  'remedy-act-done': true,
  'wrong-stated': true,
  'line-closed': true,
  'line-reopened': true,
  moved: true,
  withdrawn: true,
  lost: true,
  split: true,
  'pattern-named': true,
  'container-set': true,
  parted: true,
  'mould-poured': true,
  'left-over': true,
  'batter-wrong': true,
  'photo-asked': true,
  'temperature-noted': true,
  dissolved: true,
  override: true,
  joined: true,
  'trace-stamped': true,
  'went-away': true,
  'came-back': true,
  resumed: true,
  parked: true,
  'taken-up': true,
  abandoned: true,
  closed: true,
  'scale-checked': true,
  'alarm-raised': true,
  'alarm-ended': true,
  'alarm-silenced': true,
  'instrument-lost': true,
  'instrument-back': true,
  'clock-jumped': true,
  noted: true,
  cleaned: true,
  amended: true,
  'photo-kept': true,
};
const ALL = Object.keys(EVERY) as EntryKind[];
