import { describe, expect, it } from 'vitest';
import { grams } from '#lib/units/mass';
import { celsius } from '#lib/units/temperature';
import { BrokenHistory } from '#lib/work/batch/index';
import { review, tolerancesAway } from '#lib/work/batch/review';
import { formula, planned, workshop } from '#tests/support/formula';
import { BatchRig, MAIN, lineId, planOf, started } from '#tests/support/batch';

/** One batch with everything in it that a review must not lose. */
const eventful = (): BatchRig => {
  const rig = new BatchRig();
  rig.more = { scales: [MAIN] };
  rig.start(planOf('alder-and-oat'));
  rig.setVessel('coconut');
  rig.accept('coconut', 300);
  rig.must('answer-over', { line: lineId('coconut'), choice: 'cross-out', held: true });
  rig.accept('coconut', 286);
  rig.must('answer-over', { line: lineId('coconut'), choice: 'carry-on', held: false });
  rig.must('replan', { lines: [{ ...rig.line('olive').plan, target: grams(404) }], reason: 'coconut 6 g over' });
  rig.must('lose-instrument', { instrument: MAIN, last: grams(928.5) }, { role: 'program', via: 'bench' });
  rig.boot = 'boot-2' as typeof rig.boot;
  rig.episode = 0;
  rig.must('resume', { contents: 'as-recorded', note: 'power cut', held: true });
  rig.must('regain-instrument', { instrument: MAIN }, { role: 'program', via: 'bench' });
  rig.must('type-weight', { line: lineId('shea'), typed: { net: grams(119.5), text: '119.5', unit: 'g' }, readBack: true, part: false });
  rig.must('note', { text: 'shea on the other scale' });
  rig.weighAll().makeLye();
  rig.lye = celsius(54);
  rig.oils = celsius(44);
  rig.must('override', { reason: 'lye-too-hot', held: true, note: 'stick blender out' });
  rig.must('override', { reason: 'apart', held: true, note: '' });
  rig.must('join', { held: true });
  rig.must('stamp-trace', { mark: 'medium', note: '' });
  rig.must('close', {});
  return rig;
};

describe('the review of a batch', () => {
  const rig = eventful();
  const seen = review(rig.entries);
  const line = (id: string) => seen.lines.find((one) => one.line === id)!;

  it('shows every line beside its plan, the moved target too', () => {
    expect(seen.lines.map((one) => one.line)).toEqual(rig.now.order);
    expect(line('olive')).toMatchObject({
      planned: { target: 400_000, tolerance: 3_000 },
      target: 404_000,
      moved: true,
      actual: 404_000,
      difference: 0,
      away: 0,
    });
    expect(line('coconut')).toMatchObject({ moved: false, actual: 286_000, difference: 6_000, away: 2_400, outcome: 'over' });
    expect(line('shea')).toMatchObject({ byHand: true, difference: -500, away: -417 });
  });

  it('tells of every target that moved, which and to what', () => {
    expect(seen.story.filter(({ code }) => code === 'replanned').map(({ params }) => params)).toEqual([
      { line: 'olive', material: 'Olive oil', to: 404_000, reason: 'coconut 6 g over' },
    ]);
  });

  it('keeps crossed-out weights beside the ones that count, with who and why', () => {
    const [crossed, counts] = line('coconut').contributions;
    expect(crossed).toMatchObject({
      net: 300_000,
      struck: { reason: 'over-poured', by: 'person-1' },
      stated: { unit: 'g' },
      lot: 'CO 26-07',
    });
    expect(counts).toMatchObject({ net: 286_000, struck: null, instrument: MAIN, checked: false });
    expect(line('shea').contributions[0]).toMatchObject({ how: 'typed', instrument: null, stated: { text: '119.5', unit: 'g' } });
  });

  it('tells the story in order', () => {
    const codes = seen.story.map(({ code }) => code);
    expect(codes.slice(0, 13)).toEqual([
      'started',
      'scale-never-checked',
      'over-pour-red',
      'over-crossed-out',
      'crossed-out',
      'over-pour',
      'over-carried-on',
      'replanned',
      'instrument-lost',
      'resumed',
      'instrument-back',
      'typed-by-hand',
      'noted',
    ]);
    expect(codes).toContain('dissolved');
    expect(codes.slice(-5)).toEqual(['override', 'override', 'joined', 'trace', 'closed']);
    expect(seen.story[2]).toMatchObject({ params: { line: 'coconut', material: 'Coconut oil', over: 20_000 }, via: 'screen' });
    expect(seen.story.find(({ code }) => code === 'crossed-out')?.params).toMatchObject({ material: 'Coconut oil', net: 300_000 });
    expect(seen.story.map(({ version }) => version)).toEqual(seen.story.map(({ version }) => version).toSorted((a, b) => a - b));
  });

  it('gives the temperatures at joining with what was overridden', () => {
    expect(seen.joining).toMatchObject({
      lye: 54_000,
      oils: 44_000,
      apart: 10_000,
      byHand: [],
      overrides: [
        { reason: 'lye-too-hot', value: 54_000, limit: 50_000 },
        { reason: 'apart', value: 10_000, limit: 6_000 },
      ],
    });
    expect(seen.trace).toMatchObject([{ mark: 'medium', batter: 44_000 }]);
  });

  it('sums up what the list of batches shows', () => {
    expect(seen.summary).toEqual({
      id: 'batch-1',
      mark: '26-11',
      realm: 'test',
      name: 'Alder & oat',
      status: 'closed',
      startedWall: rig.entries[0]!.wall,
      endedWall: rig.entries.at(-1)!.wall,
      lines: { closed: 9, of: 9 },
      actual: 1_470_100 + 6_000 + 4_000 - 500,
      planned: 1_470_100,
      overPours: 2,
      overrides: 2,
      byHand: 1,
      lots: seen.lots,
      unlotted: [],
    });
    // What was weighed of each, crossed-out weights left out.
    const poured = seen.lines.flatMap(({ contributions }) => contributions.filter(({ lot, struck }) => lot !== null && struck === null));
    expect(seen.lots.reduce((sum, { mass }) => sum + mass, 0)).toBe(poured.reduce((sum, { net }) => sum + net, 0));
    expect(seen.lots.length).toBeGreaterThan(2);
  });

  it('has whole numbers only', () => {
    const numbers: number[] = [];
    JSON.stringify(seen, (_key, value: unknown) => {
      if (typeof value === 'number') numbers.push(value);
      return value;
    });
    expect(numbers.length).toBeGreaterThan(100);
    expect(numbers.filter((value) => !Number.isSafeInteger(value))).toEqual([]);
  });

  it('says that nothing was joined, and that a scale was never checked, for as long as it is so', () => {
    const early = review(started().entries);
    expect(early.joining).toBeNull();
    expect(seen.uncheckedScales).toEqual([MAIN]);
    expect(seen.checks).toEqual([]);
  });

  it('of a history with a hole there is none', () => {
    expect(() => review([])).toThrow(BrokenHistory);
    expect(() => review(rig.entries.slice(1))).toThrow(BrokenHistory);
    expect(() => review(rig.entries.filter((_entry, at) => at !== 4))).toThrow(BrokenHistory);
    expect(() => review([...rig.entries, rig.entries.at(-1)!])).toThrow(BrokenHistory);
  });

  it.each([
    [2_500, 2_500, 1_000],
    [-2_500, 2_500, -1_000],
    [1, 3, 333],
    [-1, 1_500, -1],
    [0, 100, 0],
  ])('%d mg at a tolerance of %d mg is %d thousandths away', (difference, tolerance, away) => {
    expect(tolerancesAway(difference as never, tolerance as never)).toBe(away);
  });
});

describe('what the moulds’ filling is held against', () => {
  it('a typed plan computed no volume', () => {
    expect(review(eventful().entries).sizing).toBeNull();
  });

  it('a computed one in proportion to what was really weighed, and as if nobody had corrected it', () => {
    const learnt = workshop({ calibration: { factor: '1.05', u: '0.01', batches: 3 } });
    const { plan, figures, sizing } = planned(formula(), learnt);
    const rig = new BatchRig();
    rig.must('start', { mark: '1', plan, realm: 'test', bench: 'b' });
    rig.weighAll();
    const weighed = Object.values(rig.now.lines).reduce((sum, { actual }) => sum + actual, 0) / 1000;
    const seen = review(rig.entries).sizing;
    expect(Number(seen?.grams)).toBeCloseTo(weighed, 3);
    expect(Number(seen?.volume)).toBeCloseTo(((sizing?.batter.value ?? 0) / 1.05) * (weighed / figures.batter), 2);
    expect(seen).toMatchObject({ residue: '25', pourLoss: '0.005' });
  });
});
