import { describe, expect, it } from 'vitest';
import type { LotsLeft } from '#lib/bench/pipeline/remedies';
import { as } from '#lib/units/id';
import { grams, mg } from '#lib/units/mass';
import { decide } from '#lib/work/batch/index';
import type { BatchState } from '#lib/work/batch/index';
import { stopCard } from '#lib/work/batch/remedy/card';
import type { AnswerRemedy, RemedyAnswer, RemedyCard, RemedyQuestion } from '#lib/work/batch/remedy/index';
import { benchRig, entriesIn, TABLET } from '#tests/support/bench-rig';
import type { BenchRig } from '#tests/support/bench-rig';
import { deferred } from '#tests/support/deferred';

const COCONUT = as<never>('coconut');
const POT = as<never>('oils-pot');

const carryOn: RemedyCard = { ...stopCard(false), id: 'carry-on', kind: 'carry-on', cautions: [] };
/** What a solver says of a hard fat that still lies there: the fake behind the same port. */
const answerFor = ({ version, state }: RemedyQuestion): RemedyAnswer => {
  const over = state.over?.by ?? mg(0);
  const act = { kind: 'lift-out', line: COCONUT, vessel: POT, mass: over, to: 'bottle', caustic: false } as const;
  const liftOut: RemedyCard = {
    ...carryOn,
    id: 'lift-out',
    kind: 'lift-out',
    params: { line: COCONUT, mass: over },
    acts: [act],
    taken: over,
  };
  const first: RemedyCard = { ...liftOut, recommended: { why: 'still-solid', params: {} } };
  return { version, cards: [first, carryOn, stopCard(false)], clashes: [], solved: true };
};

const batchOf = (rig: BenchRig): BatchState => {
  const batch = rig.bench.batch();
  if (batch === null) throw new Error('no batch');
  return batch;
};
const codes = (rig: BenchRig): readonly string[] => rig.bench.frame().cue.cards.map(({ code }) => code);
const kinds = async (rig: BenchRig): Promise<readonly string[]> => (await entriesIn(rig.journal)).map(({ kind }) => kind);

/** The scale says so for so long, and the page that leads is there. */
const stands = (rig: BenchRig, ms: number, shown: number): Promise<void> =>
  rig.pass(ms, () => {
    rig.bench.alive(TABLET, true);
    rig.weight(shown);
  });

/** Pot set down, zeroed, and 12 g of coconut too many poured in; `gross` of what stands there then, g. */
const overPoured = async (
  answerRemedy: AnswerRemedy,
  trouble: (what: string) => void = (what) => {
    throw new Error(what);
  },
  stock?: LotsLeft,
  sent: string[] = [],
): Promise<{ rig: BenchRig; gross: number }> => {
  const seen: typeof decide = (state, command) => {
    sent.push(command.kind);
    return decide(state, command);
  };
  const rig = benchRig({ parts: { answerRemedy, trouble, decide: seen, ...(stock === undefined ? {} : { stock }) } });
  await stands(rig, 2_500, 0);
  await rig.start();
  await stands(rig, 1_000, 0);
  const empty = (batchOf(rig).vessels[POT]?.plan.empty ?? 0) / 1000;
  await stands(rig, 5_000, empty);
  expect(rig.bench.frame().cue.phase).toBe('ready');
  const net = (batchOf(rig).lines[COCONUT]?.plan.target ?? 0) / 1000 + 12;
  let poured = 0;
  await rig.pass(16_000, () => {
    rig.bench.alive(TABLET, true);
    rig.weight(empty + (poured = Math.min(net, poured + 1)));
  });
  await stands(rig, 4_000, empty + net);
  return { rig, gross: empty + net };
};

const pressUntil = async (rig: BenchRig, gross: number, code: string): Promise<void> => {
  await stands(rig, 700, gross);
  for (let press = 0; rig.bench.frame().cue.cards[rig.bench.frame().cue.selected]?.code !== code; press += 1) {
    if (press > 6) throw new Error(`no ${code}`);
    await rig.intent({ kind: 'press', key: 'go-on', hold: false });
    await stands(rig, 100, gross);
  }
};
const hold = async (rig: BenchRig) => rig.intent({ kind: 'press', key: 'go-on', hold: true });

const stores: LotsLeft = () => Promise.resolve(new Map([['lot-coconut-07', grams(900)]]));

describe('ways out on the bench', () => {
  it('are asked for once the over-pour has settled, as the batch would be with it, and enter nothing by themselves', async () => {
    const asked: RemedyQuestion[] = [];
    const { rig } = await overPoured((question) => {
      asked.push(question);
      return Promise.resolve(answerFor(question));
    });
    // Lifting it out is crossing it out: one card for one act.
    expect(codes(rig)).toEqual(['lift-out', 'carry-on', 'stop']);
    // Once for each weight it settled at, however many readings say so.
    expect(asked.length).toBeLessThanOrEqual(2);
    expect(asked.at(-1)?.state.over).toMatchObject({ line: COCONUT, by: grams(12) });
    expect(asked.at(-1)?.facts.scales).toHaveLength(1);
    expect(await kinds(rig)).not.toContain('weight-accepted');
    expect(rig.bench.frame().cue.cards[0]?.remedy).toMatchObject({ recommended: 'still-solid', taken: grams(12), solved: true });
  });

  it('tell of each what becomes of the figure that carrying on takes out of its limits, and every limit by how much', async () => {
    const leaves = [
      { limit: 'lye-weakest', line: null, vessel: null, by: 6_000, unit: 'ppm' },
      { limit: 'share-most', line: COCONUT, vessel: null, by: 20_000, unit: 'ppm' },
    ] as const;
    const shares = [{ line: COCONUT, ppm: 420_000 }];
    const figures = {
      superfat: null,
      lyeHeavy: null,
      lye: 294_000,
      fragrance: null,
      shares,
      fats: mg(1),
      batter: mg(1),
      batterMl: 1,
      full: 1,
    };
    const { rig } = await overPoured((question) => {
      const { cards, ...rest } = answerFor(question);
      const [first, carry, stop] = cards;
      if (first === undefined || carry === undefined || stop === undefined) throw new Error('no cards');
      const mended = { ...first, figures: { ...figures, lye: 300_000, shares: [{ line: COCONUT, ppm: 400_000 }] } };
      return Promise.resolve({ ...rest, cards: [mended, { ...carry, figures, leaves }, stop] });
    });
    const seen = rig.bench.frame().cue.cards.map(({ remedy }) => remedy);
    expect(seen[1]?.clashes).toEqual(leaves);
    expect(seen[1]?.matters).toEqual([
      { of: 'lye', line: null, value: 294_000 },
      { of: 'share', line: COCONUT, value: 420_000 },
    ]);
    expect(seen[0]?.clashes).toEqual([]);
    expect(seen[0]?.matters.map(({ value }) => value)).toEqual([300_000, 400_000]);
  });

  it('know what a person says is not there any more: asked anew with it, the over-pour and its scale as they stand', async () => {
    const asked: RemedyQuestion[] = [];
    const { rig, gross } = await overPoured((question) => {
      asked.push(question);
      return Promise.resolve(answerFor(question));
    });
    const before = asked.length;
    // A scale of 0.1 g tells 0.2 g from nothing.
    expect(asked.at(-1)?.facts).toMatchObject({ stock: {}, stirredIn: [], scales: [{ smallest: 200 }] });
    const none = { kind: 'state-wrong', line: 'olive', vessel: null, mass: 0, held: true, beside: true } as const;
    expect(await rig.intent({ ...none, what: 'stock' })).toMatchObject({ ok: true });
    await stands(rig, 300, gross);
    expect(asked.length).toBeGreaterThan(before);
    expect(asked.at(-1)?.facts.stock).toEqual({ olive: 0 });
    expect(codes(rig)[0]).toBe('lift-out');
    expect(await rig.intent({ ...none, what: 'melted', line: COCONUT, mass: null })).toMatchObject({ ok: true });
    await stands(rig, 300, gross);
    expect(asked.at(-1)?.facts.stirredIn).toEqual([COCONUT]);
    expect(batchOf(rig).wrong).toBeNull();
    // Nothing was entered of the pour by any of it.
    expect(batchOf(rig).lines[COCONUT]?.actual).toBe(0);
  });

  it('know what the stores have of each lot, less what is poured and not entered yet; a word of a person goes before it', async () => {
    const asked: RemedyQuestion[] = [];
    const { rig, gross } = await overPoured(
      (question) => {
        asked.push(question);
        return Promise.resolve(answerFor(question));
      },
      undefined,
      stores,
    );
    const poured = (batchOf(rig).lines[COCONUT]?.plan.target ?? 0) + grams(12);
    expect(asked.at(-1)?.facts.stock).toEqual({ coconut: grams(900) - poured });
    const none = { kind: 'state-wrong', what: 'stock', line: COCONUT, vessel: null, mass: 0, held: true, beside: true } as const;
    await rig.intent(none);
    await stands(rig, 300, gross);
    expect(asked.at(-1)?.facts.stock).toEqual({ coconut: 0 });
  });

  it('hold up no reading while they are worked out, and come when they come', async () => {
    const late = deferred<RemedyAnswer>();
    const questions: RemedyQuestion[] = [];
    const { rig, gross } = await overPoured((question) => {
      questions.push(question);
      return late.promise;
    });
    const frames = rig.frames.length;
    await stands(rig, 1_000, gross);
    expect(rig.frames.length).toBeGreaterThan(frames + 10);
    const question = questions.at(-1);
    if (question === undefined) throw new Error('nobody asked');
    late.resolve(answerFor(question));
    await stands(rig, 100, gross);
    expect(codes(rig)[0]).toBe('lift-out');
  });

  it('of another version of the batch count for nothing: what can be done without them is offered after three seconds', async () => {
    const { rig, gross } = await overPoured((question) => Promise.resolve({ ...answerFor(question), version: question.version + 1 }));
    await stands(rig, 4_000, gross);
    expect(codes(rig)).toEqual(['carry-on', 'cross-out', 'stop']);
  });

  it('that fail are logged, and leave carrying on and crossing out', async () => {
    const told: string[] = [];
    const { rig, gross } = await overPoured(
      () => Promise.reject(new Error('no thread')),
      (what) => told.push(what),
    );
    await stands(rig, 4_000, gross);
    expect(codes(rig)).toEqual(['carry-on', 'cross-out', 'stop']);
    expect(told).toContain('ways out could not be asked for');
  });

  it('taken with a hold: the weight goes in, what was chosen of what is kept, and what leaves is led and measured', async () => {
    const { rig, gross } = await overPoured((question) => Promise.resolve(answerFor(question)));
    await pressUntil(rig, gross, 'lift-out');
    expect(await kinds(rig)).not.toContain('remedy-chosen');
    expect(await hold(rig)).toMatchObject({ ok: true });
    await stands(rig, 100, gross);
    const chosen = (await entriesIn(rig.journal)).find((entry) => entry.kind === 'remedy-chosen');
    expect(chosen?.body).toMatchObject({ over: { line: COCONUT, by: grams(12) }, card: { kind: 'lift-out', recommended: 'still-solid' } });
    expect(chosen?.by).toBe('maker');
    expect(chosen?.kind === 'remedy-chosen' ? chosen.body.others.map(({ kind }) => kind) : []).toEqual(['carry-on', 'stop']);
    expect(rig.bench.frame().cue).toMatchObject({ phase: 'take-out', left: grams(12), cards: [] });
    // What stands there still is in the record: it is not poured over once more, and rings no alarm.
    await stands(rig, 3_000, gross);
    expect(batchOf(rig).alarms).toEqual({});

    // A lump comes out: lighter by 11.8 g, which no hold took yet.
    await stands(rig, 5_000, gross - 11.8);
    expect(rig.bench.frame().cue).toMatchObject({ phase: 'take-out', total: grams(11.8), goOn: { code: 'taken-out', hold: true } });
    expect(await hold(rig)).toMatchObject({ ok: true });
    await stands(rig, 200, gross - 11.8);
    const out = (await entriesIn(rig.journal)).find((entry) => entry.kind === 'withdrawn');
    expect(out?.body).toMatchObject({ mass: grams(11.8), to: 'bottle', weighed: { net: grams(11.8) } });
    const after = batchOf(rig);
    expect(after.lines[COCONUT]).toMatchObject({
      status: 'closed',
      outcome: 'within',
      actual: (after.lines[COCONUT]?.plan.target ?? 0) + 200,
    });
    expect(after.toDo).toEqual([]);
    // The pot stands there still, and the next oil is counted from what it weighs now.
    expect(after.open).not.toBe(COCONUT);
    expect(rig.bench.frame().cue.phase).toBe('ready');
    await stands(rig, 2_000, gross - 11.8);
    expect(batchOf(rig).question).toBeNull();
  });

  it('what is left in after all closes its line as it is, told in the record', async () => {
    const { rig, gross } = await overPoured((question) => Promise.resolve(answerFor(question)));
    await pressUntil(rig, gross, 'lift-out');
    await hold(rig);
    await stands(rig, 2_000, gross);
    expect(rig.bench.frame().cue.goOn).toEqual({ code: 'left-in', hold: true });
    expect(await hold(rig)).toMatchObject({ ok: true });
    expect(batchOf(rig).lines[COCONUT]).toMatchObject({ status: 'closed', outcome: 'over' });
    expect((await entriesIn(rig.journal)).find(({ kind }) => kind === 'remedy-act-done')?.body).toMatchObject({ done: 0 });
    expect(batchOf(rig).toDo).toEqual([]);
  });

  it('a stop ends the batch with every weight kept', async () => {
    const { rig, gross } = await overPoured((question) => Promise.resolve(answerFor(question)));
    await pressUntil(rig, gross, 'stop');
    expect(await hold(rig)).toMatchObject({ ok: true });
    await stands(rig, 100, gross);
    expect(batchOf(rig).status).toBe('abandoned');
    expect(batchOf(rig).lines[COCONUT]?.actual).toBe((batchOf(rig).lines[COCONUT]?.plan.target ?? 0) + grams(12));
  });

  it('that want more of what is in ask whether there is enough, by the same three intents', async () => {
    const asked: RemedyQuestion[] = [];
    const sent: string[] = [];
    const answer = (question: RemedyQuestion): RemedyAnswer => {
      asked.push(question);
      const more = { line: COCONUT, target: grams(300), tolerance: grams(1), upper: null, pour: grams(20), change: 0, needs: [] } as const;
      const add = { ...carryOn, id: 'add', kind: 'add', lines: [more], cautions: ['stock-not-known'] } as const;
      return { version: question.version, cards: [add, carryOn, stopCard(false)], clashes: [], solved: true };
    };
    const { rig, gross } = await overPoured((question) => Promise.resolve(answer(question)), undefined, undefined, sent);
    const ways = ['add', 'carry-on', 'cross-out', 'stop'];
    expect(codes(rig)).toEqual(ways);
    const ask = async (): Promise<void> => {
      await pressUntil(rig, gross, 'add');
      await hold(rig);
      await stands(rig, 100, gross);
      expect(rig.bench.frame().cue.cards.map(({ code, params }) => [code, params['mass']])).toEqual([
        ['stock-enough', grams(20)],
        ['stock-short', grams(20)],
      ]);
    };
    await ask();
    expect(sent).not.toContain('choose-remedy');
    // A last digit that flickers is another weight, worked out anew, and no other question.
    const before = asked.length;
    await stands(rig, 2_500, gross + 0.3);
    expect(asked.length).toBeGreaterThan(before);
    expect(codes(rig)).toEqual(['stock-enough', 'stock-short']);
    await stands(rig, 2_500, gross);
    await stands(rig, 700, gross);
    await rig.intent({ kind: 'press', key: 'back', hold: false });
    expect(codes(rig)).toEqual(ways);
    await ask();
    await pressUntil(rig, gross, 'stock-enough');
    await hold(rig);
    expect(sent).toContain('choose-remedy');
    // The fake's way out does not do what it shows: the over-pour is in, and asked about still.
    await stands(rig, 2_500, gross);
    await ask();
    await pressUntil(rig, gross, 'stock-short');
    await hold(rig);
    await stands(rig, 2_500, gross);
    expect((await entriesIn(rig.journal)).at(-1)?.body).toMatchObject({ what: 'stock', line: COCONUT, mass: 0, beside: true });
    expect(asked.at(-1)?.facts.stock).toEqual({ [COCONUT]: 0 });
    expect(codes(rig)).toContain('add');
  });
});
