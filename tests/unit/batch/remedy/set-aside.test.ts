import { beforeAll, describe, expect, it } from 'vitest';
import { cardWordsFor } from '../../../../app/bench/messages-cards';
import { joiningScene } from '#lib/bench/conductor/joining';
import type { ScaleMemory } from '#lib/bench/conductor/memory';
import { recognise } from '#lib/bench/conductor/recognise';
import type { Scenery } from '#lib/bench/conductor/stage';
import type { Solver } from '#lib/soap/remedy/solver';
import { as } from '#lib/units/id';
import type { BatchId, EntryId, LineId } from '#lib/units/id';
import { grams, mg } from '#lib/units/mass';
import { batterOf } from '#lib/work/batch/batter';
import { toEntry } from '#lib/work/batch/index';
import type { CommandBodies, Entry } from '#lib/work/batch/index';
import { lotsOf } from '#lib/work/batch/lots';
import { asPoured } from '#lib/work/batch/poured/index';
import { mouldsIn } from '#lib/work/batch/pouring/places';
import { review } from '#lib/work/batch/review';
import { upcastLines } from '#lib/work/batch/upcast';
import type { Mould } from '#lib/work/formula/index';
import { mouldsFor } from '#lib/work/formula/mould-offers';
import { potMessages } from '#lib/words/pot-messages';
import { BatchRig, MAIN } from '#tests/support/batch';
import { formula } from '#tests/support/formula';
import { batchOf, factsWith, LIMITS } from '#tests/support/remedy-rig';
import { ask, cardOf, testSolver } from '#tests/support/solver';

let solve: Solver;
beforeAll(async () => {
  solve = await testSolver();
});

const line = (id: string): LineId => as(id);
const SECOND = as<BatchId>('batch-2');
const box = (id: string, length: string): Mould => ({
  id,
  name: id,
  shape: { kind: 'box', length, width: '100', depth: '50' },
  lengthU: null,
});

/** 800 g of olive where 700 were to be, and nothing left to scale the batch with: a part of the pot is set aside. */
const chosen = () => {
  const rig = batchOf(formula({ limits: LIMITS }));
  rig.weigh('coconut');
  rig.weigh('olive', 800);
  const facts = factsWith({ stock: { [line('coconut')]: mg(0), [line('olive')]: mg(0), [line('soda')]: rig.line('soda').plan.target } });
  const answer = ask(solve, rig, facts);
  const card = cardOf(answer, 'split');
  const others = answer.cards.filter((one) => one !== card);
  rig.must('choose-remedy', { card, others, solved: true, version: rig.now.version, facts, held: true });
  return rig;
};

/** The act done, and the batch that is begun by it, at a bench of its own. */
const setAside = (rig: BatchRig, body: Partial<CommandBodies['do-remedy-act']> = {}) => {
  const act = rig.now.toDo[0];
  if (act === undefined) throw new Error('nothing is to be set aside');
  const decision = rig.send('do-remedy-act', { weighed: null, held: true, begins: SECOND, ...body });
  if (!decision.ok || decision.begins === undefined) throw new Error('no batch is begun');
  const { batch, drafts } = decision.begins;
  const last = rig.entries.at(-1);
  if (last === undefined) throw new Error('no entry');
  const entries = drafts.map((draft, at) => toEntry(draft, { ...last, id: as<EntryId>(`second-${at}`), batch, version: at + 1 }));
  const own = at(entries);
  own.episode = rig.episode;
  return { act, entries, own };
};

/** Measured by what the pot loses on the pan. */
const measured = (rig: BatchRig) => {
  const mass = rig.now.toDo[0]?.mass ?? mg(0);
  const zero = rig.vessel('oils-pot').standing?.gross ?? mg(0);
  const weighed = { ...rig.weighed('olive', 0), zero, gross: mg(zero - mass), net: mass };
  rig.stands = { instrument: weighed.instrument, gross: weighed.gross, episode: weighed.episode };
  return setAside(rig, { weighed });
};

const at = (entries: readonly Entry[]): BatchRig => {
  const rig = new BatchRig();
  for (const { kind, body, ...head } of entries) rig.enterAs(kind, body, head);
  return rig;
};

/** How unsure the superfat is. */
const spread = (rig: BatchRig): number => {
  const answer = asPoured(rig.now);
  return answer.kind === 'figures' ? (answer.superfat?.u ?? Number.NaN) : Number.NaN;
};
/** What makes it so, as it is told at the bench and on Review. */
const widened = (rig: BatchRig): readonly string[] => {
  const answer = asPoured(rig.now);
  return answer.kind === 'figures' ? (answer.superfat?.parts ?? []).map(({ what, name }) => potMessages.parts[what](name)) : [];
};
/** Which instruments told what was taken out; `null`: a person's word. */
const taken = ({ entries }: BatchRig) =>
  review(entries).lines.flatMap(({ contributions }) => contributions.flatMap((one) => (one.kind === 'withdrawn' ? [one.instrument] : [])));

describe('a part of the pot that is set aside', () => {
  it('is a batch of its own, parked, with what was poured of it in its jug and in the record of both', () => {
    const rig = chosen();
    const before = asPoured(rig.now);
    const { act, entries, own } = setAside(rig);
    expect(own.now).toMatchObject({ id: SECOND, mark: '26-11b', status: 'parked', open: 'water' });
    expect(rig.now.setAside).toEqual([{ batch: SECOND, mark: '26-11b' }]);
    expect(own.vessel('set-aside').contents).toBe(act.mass);
    expect(own.vessel('set-aside').holds).toEqual({ olive: own.line('olive').actual, coconut: own.line('coconut').actual });
    // Lot by lot nothing is taken twice from a shelf.
    const of = (state: typeof rig.now, lot: string): number => lotsOf(state).find((one) => one.lot === lot)?.mass ?? 0;
    expect(of(rig.now, 'lot-olive') + of(own.now, 'lot-olive')).toBe(grams(800));
    expect(of(own.now, 'lot-olive')).toBe(own.line('olive').actual);
    // Read back as any record is, and told in both.
    const read = upcastLines(entries.map((entry) => JSON.stringify(entry)));
    expect(read.ok && read.entries).toEqual(entries);
    expect(review(entries).story[0]?.params).toMatchObject({ from: '26-11', mass: act.mass });
    expect(review(entries).lines.find((one) => one.line === 'olive')?.contributions[0]).toMatchObject({ kind: 'brought', lot: 'X 1' });
    expect(review(rig.entries).story.find(({ code }) => code === 'withdrawn')?.params['begins']).toBe('26-11b');
    expect(before.kind).toBe('figures');
  });

  it('is taken up at the bench and weighed to the superfat of the plan, from its own lines alone', () => {
    const { own } = measured(chosen());
    own.must('take-up', { note: '' });
    own.weighAll();
    const answer = asPoured(own.now);
    if (answer.kind !== 'figures' || answer.superfat === null) throw new Error(answer.kind);
    expect(answer.superfat.working).toBeCloseTo(0.05, 2);
    expect(answer.limits.filter(({ verdict, what }) => verdict === 'outside' && what !== 'share')).toEqual([]);
    for (const { plan } of Object.values(own.now.lines)) expect(plan.tolerance).toBeGreaterThanOrEqual(Math.min(100, plan.target));
    own.makeLye().join();
    expect(own.now.status).toBe('joined');
  });

  it('is poured into the moulds that are chosen as it is taken up, which are asked for once and told in its record', () => {
    const moulds = mouldsFor(['loaf', 'tray'], [box('loaf', '200'), box('tray', '100')], batterOf(setAside(chosen()).own.now)) ?? [];
    expect(moulds.map(({ n, brimMl, pattern }) => [n, brimMl, pattern])).toEqual([
      [1, 1000, null],
      [2, 500, null],
    ]);
    expect(mouldsFor(['loaf', 'gone'], [box('loaf', '200')], { ml: 500, mass: 500_000 })).toBeNull();
    const { own } = measured(chosen());
    own.must('take-up', { note: '', moulds });
    expect(mouldsIn(own.now).map(({ name }) => name)).toEqual(['loaf', 'tray']);
    const read = upcastLines(own.entries.map((entry) => JSON.stringify(entry)));
    expect(read.ok && read.entries).toEqual(own.entries);
    expect(review(own.entries).story.find(({ code }) => code === 'taken-up')?.params).toMatchObject({ moulds: 'loaf, tray' });
    own.must('park', { reason: 'again' });
    expect(own.code('take-up', { note: '', moulds })).toBe('already-done');
    own.must('take-up', { note: '' });
    expect(mouldsIn(own.now)).toHaveLength(2);
    own.weighAll().makeLye();
    // Like any mould of a plan each wants its pattern before joining.
    expect(own.code('join', { held: true })).toBe('joining-held');
    for (const { n } of moulds) own.must('name-pattern', { mould: n, pattern: 'plain-pour' });
    own.join();
    own.must('stamp-trace', { mark: 'medium', note: '' });
    for (const { n, mass } of moulds) own.must('pour-mould', { mould: n, from: ['pot'], mass: mass ?? mg(0) });
    own.must('close', {});
    const codes = review(own.entries).story.map(({ code }) => code);
    expect(codes).toEqual(expect.arrayContaining(['taken-up', 'joined', 'trace', 'closed']));
    expect(own.now.status).toBe('closed');
  });

  it('measured on the pan leaves both batches the doubt of the scale; said by a person, that of a person', () => {
    const [said, told] = [chosen(), chosen()];
    expect(spread(measured(told).own)).toBeLessThan(spread(setAside(said).own) * 0.9);
    expect(spread(told)).toBeLessThan(spread(said) * 0.99);
    // And on Review it is the scale's, where it was one's.
    expect(taken(told)).toEqual([MAIN, MAIN]);
    expect(taken(said)).toEqual([null, null]);
  });

  it('says among what makes its superfat wide that nobody weighed it, and by how much', () => {
    expect(widened(setAside(chosen()).own)).toContain('what was set aside by a person’s word, 5 % of it unsure');
    expect(widened(measured(chosen()).own).join()).not.toContain('set aside');
  });

  it('is not taken for the pot it left, which may still stand on the pan, nor for what weighs less than it', () => {
    const { own, act } = measured(chosen());
    own.must('take-up', { note: '' });
    const line = Object.values(own.now.lines).find(({ plan }) => plan.vessel === 'set-aside');
    const weighed = Object.values(own.now.lines).flatMap(({ contributions }) => contributions)[0]?.weighed ?? null;
    const onPan = (level: number): string =>
      recognise(own.now, line!, MAIN, { track: { level, division: 100 }, empty: 0, stand: null, bottle: null } as unknown as ScaleMemory)
        .kind;
    expect(weighed?.instrument).toBe(MAIN);
    const left = weighed?.gross ?? 0;
    expect([onPan(left), onPan(left + 900), onPan(act.mass * 0.8), onPan(act.mass + 300_000)]).toEqual([
      'strange',
      'strange',
      'strange',
      'unknown',
    ]);
  });

  it('is asked about before joining with why: nobody weighed what was set aside', () => {
    const { own } = setAside(chosen());
    own.must('take-up', { note: '' });
    own.weighAll().makeLye();
    const probes = (['lye', 'oils'] as const).map((use) => ({ use, value: 42_000, freshness: 'fresh', suspect: null }));
    const stage = { batch: own.now, view: { boot: own.now.boot, probes, lyeSeen: null }, now: 0, wants: [], memory: {} };
    const asks = joiningScene(stage as unknown as Scenery).choices?.find(({ card }) => card.code === 'override')?.card;
    expect(asks?.params).toMatchObject({ reason: 'may-be-lye-heavy', because: 'set-aside' });
    expect(cardWordsFor('override').sub(asks?.params ?? {}, { share: String } as never)).toMatch(
      /: what was set aside was never weighed\./,
    );
  });

  it('cannot be crossed out of either: it would stand in both, or in none', () => {
    const rig = chosen();
    const { own } = setAside(rig);
    const left = rig.entries.find(({ kind }) => kind === 'withdrawn')?.id ?? as<EntryId>('');
    const came = own.entries[0]?.id ?? as<EntryId>('');
    own.must('take-up', { note: '' });
    for (const [of, entry] of [[rig, left] as const, [own, came] as const])
      expect(of.code('strike', { entry, reason: 'undone', note: '', held: true })).toBe('wrong-state');
  });
});
