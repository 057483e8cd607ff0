import { describe, expect, it } from 'vitest';
import { as, type InstrumentId, type LotId } from '#lib/units/id';
import { grams, mg } from '#lib/units/mass';
import { upcast } from '#lib/work/batch/upcast';
import type { Plan } from '#lib/work/batch/index';
import { asPoured } from '#lib/work/batch/poured/index';
import type { AsPoured } from '#lib/work/batch/poured/index';
import type { MassError } from '#lib/soap/poured/index';
import { MAIN, changed, lineId, planOf as typedPlan, started } from '#tests/support/batch';
import { entry, formula, mass, planned, share } from '#tests/support/formula';

/** 300 g of coconut, 700 g of olive, a fragrance with a limit; everything by the sample workshop's ranges and certificates. */
const scent = entry('alder', 'fragrance', 'alder-wood-scent', share('2'), { lot: 'lot-alder-03' });
const of = formula({
  entries: [...formula().entries, scent],
  moulds: [{ mould: 'short-loaf', count: 1, fill: '90', pattern: 'plain-pour' }],
  limits: { superfat: { low: '4', high: '6' }, lye: { low: '31', high: '35' } },
});
const plan: Plan = planned(of).plan;

const figures = (state: Parameters<typeof asPoured>[0], live: Parameters<typeof asPoured>[1] = null): AsPoured => {
  const answer = asPoured(state, live);
  if (answer.kind !== 'figures') throw new Error(answer.kind);
  return answer;
};

const at = (answer: AsPoured, id: string): number => answer.pot.lines.findIndex((line) => line.id === id);
const causes = (answer: AsPoured, cause: MassError['cause']): readonly MassError[] =>
  answer.masses.errors.filter((one) => one.cause === cause);

describe('a batch before anything is weighed', () => {
  const answer = figures(started(plan).now);
  it('is the plan, and everything is still to come', () => {
    const worked = planned(of).figures;
    expect(answer.superfat?.working).toBeCloseTo(worked.superfat.working, 6);
    expect(answer.superfat?.value).toBeCloseTo(worked.superfat.expected, 5);
    expect(answer.lye?.value).toBeCloseTo(worked.lyeConcentration, 5);
    expect(answer.fragrance?.value).toBeCloseTo(worked.fragrance.verdict.kind === 'not-known' ? -1 : worked.fragrance.verdict.sum, 4);
    expect(answer.volume?.value).toBeCloseTo(planned(of).sizing?.batter.value ?? 0, 1);
    expect(answer.toCome).toEqual(plan.lines.map(({ id }) => id));
    expect(answer.limits.map(({ what, verdict }) => [what, verdict])).toEqual([
      ['superfat', 'check'],
      ['lye', 'inside'],
      ['fragrance', 'inside'],
      ['full', 'inside'],
    ]);
  });
});

const live = (net: number) => ({ line: lineId('olive'), net: grams(net), instrument: MAIN, step: mg(100) });

describe('a batch as weighed', () => {
  it('an over-pour of 12 g of olive oil: superfat up by what its demand is, by hand', () => {
    const rig = started(plan).weighAll('olive');
    rig.weigh('olive', 712);
    const after = figures(rig.now);
    const demand = (300 * 257 + 700 * 190) / 1000;
    const more = (12 * 190) / 1000;
    expect(after.superfat?.working).toBeCloseTo(1 - (0.95 * demand) / (demand + more), 4);
    expect(after.shares[at(after, 'olive')]?.value).toBeCloseTo(712 / 1012, 6);
    expect(after.toCome).not.toContain('olive');
  });

  it('what is poured live counts as it stands once it passes the target, and at plan until then', () => {
    const rig = started(plan).weighAll('olive');
    rig.setVessel('olive');
    expect(figures(rig.now, live(400)).superfat?.working).toBeCloseTo(figures(rig.now).superfat?.working ?? 0, 12);
    const over = figures(rig.now, live(712));
    expect(over.masses.grams[at(over, 'olive')]).toBe(712);
    expect(over.toCome).not.toContain('olive');
  });

  it('oils weighed one upon another share the reading between them; the first line’s end is the next one’s beginning', () => {
    const rig = started(plan).weighAll('water');
    const answer = figures(rig.now);
    const [first, second] = [at(answer, 'coconut'), at(answer, 'olive')];
    const shared = causes(answer, 'reading').filter(
      ({ effect }) => effect.some(({ line }) => line === first) && effect.some(({ line }) => line === second),
    );
    expect(shared).toHaveLength(1);
    const [end, begin] = [first, second].map((line) => shared[0]?.effect.find((one) => one.line === line)?.grams ?? 0);
    // A 0.1 g scale that was never checked: 0.41 d for a weighing, over √2 for each of its readings; opposite signs.
    expect(Math.abs(end ?? 0)).toBeCloseTo((0.41 * 0.1) / Math.SQRT2, 9);
    expect(begin).toBe(-(end ?? 0));
  });

  it('a vessel lifted and set down again is another reading', () => {
    const rig = started(plan).weighAll('olive');
    rig.lift('coconut');
    rig.weigh('olive');
    const answer = figures(rig.now);
    const two = causes(answer, 'reading').filter(({ effect }) => effect.length > 1);
    expect(two).toEqual([]);
  });

  it('the gain of a scale stands in all its lines, also those to come on it; another scale has its own', () => {
    const two = changed(plan, 'alder', { scale: 'fine' });
    const answer = figures(started(two).weighAll('water').now);
    const gains = causes(answer, 'gain');
    expect(gains.map(({ of: scale }) => scale).toSorted()).toEqual(['scale-fine', 'scale-main']);
    const main = gains.find(({ of: scale }) => scale === 'scale-main');
    expect(main?.effect.map(({ line }) => answer.pot.lines[line]?.id).toSorted()).toEqual(
      two.lines
        .filter(({ scale }) => scale === 'main')
        .map(({ id }) => id)
        .toSorted(),
    );
    expect(main?.effect.find(({ line }) => line === at(answer, 'olive'))?.grams).toBeCloseTo(0.7, 6);
  });

  it('a check of the scale in this batch narrows its gain to what it was off', () => {
    const rig = started(plan);
    const settled = rig.settle(MAIN, grams(500.2));
    rig.must('check-scale', { instrument: MAIN, nominal: grams(500) }, { observation: rig.seen(settled) });
    rig.weighAll('water');
    const gain = causes(figures(rig.now), 'gain').find(({ of: scale }) => scale === 'scale-main');
    expect(gain?.checked).toBe(true);
    const olive = gain?.effect.find(({ line }) => line === at(figures(rig.now), 'olive'))?.grams ?? 0;
    expect(olive).toBeCloseTo(700 * (Math.hypot(0.2, 0.41 * 0.1) / 500), 6);
  });

  it('a weight typed by hand is off by its own last digit and by a scale nobody knows', () => {
    const rig = started(plan).weighAll('olive');
    rig.must('type-weight', { line: lineId('olive'), typed: { net: grams(700), text: '700', unit: 'g' }, readBack: true, part: false });
    const [typed] = causes(figures(rig.now), 'typed');
    expect(typed?.effect).toEqual([{ line: at(figures(rig.now), 'olive'), grams: Math.hypot(0.41, 1.4) }]);
  });

  it('lye left in its jug and weighed back: 2 g of 33 % is 0.44 points of superfat in a kilogram', () => {
    const rig = started(plan).weighAll().makeLye();
    const before = figures(rig.now).superfat?.working ?? 0;
    const jug = rig.line('water').plan.vessel;
    const empty = rig.vessel(jug).empty ?? mg(0);
    const settled = rig.settle(MAIN, mg(empty + 2_000));
    rig.join();
    const weighed = {
      ...rig.weighed('water', 2),
      gross: settled.gross,
      zero: empty,
      net: grams(2),
      instrument: MAIN,
      episode: settled.episode,
    };
    rig.must('weigh-back', { line: lineId('water'), vessel: jug, weighed }, { observation: rig.seen(settled) });
    const after = figures(rig.now);
    expect(100 * ((after.superfat?.working ?? 0) - before)).toBeCloseTo(0.44, 1);
    // Both lines of the mixture by one reading.
    const back = causes(after, 'reading').filter(
      ({ effect }) => effect.length > 1 && effect.some(({ line }) => line === at(after, 'soda')),
    );
    expect(back.length).toBeGreaterThan(0);
  });

  it('a spill is off by a fifth of what was stated', () => {
    const rig = started(plan).weighAll('water');
    rig.must('lose', { vessel: rig.line('olive').plan.vessel, mass: grams(50), cause: 'spill', note: '' });
    const [stated] = causes(figures(rig.now), 'stated');
    expect(stated?.effect.reduce((sum, one) => sum + Math.abs(one.grams), 0)).toBeCloseTo(10, 3);
  });

  it('what was crossed out counts nothing', () => {
    const rig = started(plan);
    rig.weigh('coconut', 330);
    rig.must('answer-over', { line: lineId('coconut'), choice: 'cross-out', held: true });
    expect(figures(rig.now).superfat?.working).toBeCloseTo(0.05, 4);
  });
});

describe('what is not known', () => {
  it('a typed plan is not worked out, and neither is one whose frozen values are not ours', () => {
    expect(asPoured(started(typedPlan('alder-and-oat')).now)).toEqual({ kind: 'typed-plan', line: null });
    const { poured: _none, ...older } = plan.basis!;
    expect(asPoured(started({ ...plan, basis: older }).now)).toEqual({ kind: 'not-frozen', line: null });
    const broken = { ...plan.basis!.poured!, beliefs: [{ nonsense: 1 }] } as never;
    expect(asPoured(started({ ...plan, basis: { ...older, poured: broken } }).now)).toEqual({ kind: 'not-frozen', line: null });
  });

  it('a line that came later and is of no material of the plan', () => {
    const rig = started(plan);
    const { id: _id, ...palm } = plan.lines[0]!;
    rig.must('replan', { lines: [{ ...palm, id: lineId('palm'), material: { ...palm.material, id: as('palm') } }], reason: 'more fat' });
    expect(asPoured(rig.now)).toEqual({ kind: 'unknown-line', line: 'palm' });
  });

  it('another lot of the soda than the certificate was of: its purity is as the material’s, which nobody knows', () => {
    const rig = started(plan);
    rig.must('choose-lot', { line: lineId('soda'), lot: { id: as<LotId>('lot-other'), mark: 'SH 1' } });
    expect(asPoured(rig.now)).toEqual({ kind: 'unknown-line', line: 'soda' });
  });

  it('another lot of a fat with a certificate goes by its material’s range', () => {
    const certified = planned(
      formula({ entries: formula().entries.map((one) => (one.id === 'coconut' ? { ...one, lot: 'lot-coconut-09' } : one)) }),
    ).plan;
    const rig = started(certified);
    expect(figures(rig.now).pot.beliefs.find(({ material }) => material === 'coconut')).toMatchObject({
      value: 256,
      belief: { kind: 'certificate' },
    });
    rig.must('choose-lot', { line: lineId('coconut'), lot: { id: as<LotId>('lot-coconut-07'), mark: 'CO 26-07' } });
    expect(figures(rig.now).pot.beliefs.find(({ material }) => material === 'coconut')).toMatchObject({
      value: 257,
      belief: { kind: 'range', low: 248, high: 265 },
    });
  });

  it('a fragrance of a lot without a certificate has no sum', () => {
    const rig = started(plan);
    rig.must('choose-lot', { line: lineId('alder'), lot: { id: as<LotId>('lot-other'), mark: 'AW 1' } });
    expect(figures(rig.now)).toMatchObject({ fragrance: null, unlimited: ['Alder wood fragrance oil'] });
  });

  it('reads back from the record what the plan froze, and nothing else that it depends on', () => {
    const rig = started(plan);
    const read = upcast(JSON.parse(JSON.stringify(rig.entries[0])));
    if (!read.ok || read.entry.kind !== 'batch-started') throw new Error('not read');
    expect(read.entry.body.plan).toEqual(plan);
    expect(as<InstrumentId>(plan.basis?.poured?.scales[0]?.instrument ?? '')).toBe(MAIN);
  });
});

describe('the amounts of the rest of the plan', () => {
  it('a line closed short counts as it is', () => {
    const rig = started(plan).weighAll('olive');
    rig.setVessel('olive');
    rig.accept('olive', 650, { shortIsFine: true });
    expect(figures(rig.now).masses.grams).toContain(650);
    expect(mass('1').kind).toBe('mass');
  });
});
