import fc from '#tests/support/property';
import { describe, expect, it } from 'vitest';
import { termsOf } from '#lib/bench/pipeline/forecast-terms';
import { createForecasts, type Forecasts } from '#lib/bench/pipeline/forecasts';
import type { ProbeUse, TemperatureReading } from '#lib/measure/reading';
import type { ForecastLane } from '#lib/protocol/forecast';
import { againstAt } from '#lib/soap/meeting/against';
import { as, type BootId, type InstrumentId } from '#lib/units/id';
import { celsius } from '#lib/units/temperature';
import { monotonic } from '#lib/units/time';
import { joiningHolds } from '#lib/work/batch/index';
import { started } from '#tests/support/batch';
import { benchAfter } from '#tests/support/bench-after';
import { benchRig, TABLET } from '#tests/support/bench-rig';
import { cooling, noisy, type Curve } from '#tests/support/cooling';
import { formula, planned } from '#tests/support/formula';
import { RICH, RICH_WORKSHOP } from '#tests/support/rich-formula';

const LYE = noisy(cooling(1.25, 82, 52, 1500));
const OILS = noisy(cooling(1.25, 55, 47, 1500));
const ROOM: Curve = () => 20;

const reading = (use: ProbeUse, at: number, degrees: number | null, instrument = 'probe-one'): TemperatureReading => ({
  kind: 'temperature',
  instrument: as<InstrumentId>(instrument),
  seq: 1,
  at: monotonic(1000 * at),
  raw: new Uint8Array(),
  use,
  value: degrees === null ? null : celsius(degrees),
  text: String(degrees),
  fault: degrees === null ? 'disconnected' : null,
});

/** Everything weighed and the lye made. */
const made = () => started().weighAll().makeLye();

interface Told {
  readonly forecasts: Forecasts;
  readonly lanes: ForecastLane[];
  /** Seconds of three probes and a look after each. */
  run(from: number, until: number, curves?: Partial<Record<'lye' | 'oils' | 'room', Curve>>): ForecastLane | null;
}

const told = (batch = made().now as Parameters<Forecasts['look']>[0]): Told => {
  const lanes: ForecastLane[] = [];
  const forecasts = createForecasts({
    boot: as<BootId>('boot'),
    tell: (lane) => lanes.push(lane),
    trouble: (what, error) => {
      throw new Error(what, { cause: error });
    },
  });
  return {
    forecasts,
    lanes,
    run(from, until, curves = { lye: LYE, oils: OILS, room: ROOM }) {
      for (let t = from; t < until; t += 1) {
        for (const use of ['lye', 'oils', 'room'] as const) {
          const curve = curves[use];
          if (curve !== undefined) forecasts.heard(reading(use, t, curve(t)));
        }
        forecasts.look(batch, monotonic(1000 * t + 500));
      }
      return forecasts.newest();
    },
  };
};

const outlooks = (lane: ForecastLane | null) => [lane?.lye.outlook.kind, lane?.oils.outlook.kind];

describe('the forecast of a bench', () => {
  it('says "not enough yet" with how much there is, then where the vessels go and when they meet', () => {
    const bench = told();
    expect(bench.run(0, 100)?.lye.outlook).toEqual({ kind: 'none', why: 'not-yet', blocks: 4, needed: 8 });
    expect(bench.forecasts.newest()?.meeting).toEqual({ kind: 'none', lye: 'not-yet', oils: 'not-yet' });
    const lane = bench.run(100, 600);
    expect(lane?.lye.outlook.kind).toBe('forecast');
    if (lane?.meeting?.kind !== 'meeting') throw new Error('no meeting');
    expect(lane.meeting.against.map(({ reason }) => reason)).toEqual(['lye-too-hot', 'oils-too-hot', 'apart']);
    expect(lane.meeting.joinable).toEqual(lane.meeting.when);
    if (lane.lye.outlook.kind !== 'forecast') throw new Error('no forecast');
    for (const row of lane.lye.outlook.ahead) expect(row.every((value) => Number.isInteger(value))).toBe(true);
    const tenMinutes = lane.lye.outlook.ahead.find(([after]) => after === 600);
    expect(1000 * LYE(lane.at / 1000 + 600)).toBeGreaterThan(tenMinutes?.[1] ?? Number.NaN);
    expect(1000 * LYE(lane.at / 1000 + 600)).toBeLessThan(tenMinutes?.[3] ?? Number.NaN);
  });

  it('is told once for each block of readings, not for each reading', () => {
    const bench = told();
    bench.run(0, 300);
    const before = bench.lanes.length;
    bench.run(300, 500);
    expect(bench.lanes.length - before).toBeGreaterThanOrEqual(10);
    expect(bench.lanes.length - before).toBeLessThanOrEqual(12);
  });

  it('stays small enough for any screen', () => {
    expect(JSON.stringify(told().run(0, 600)).length).toBeLessThan(8_000);
  });

  it('falls silent with its probe, and a probe that says it has failed is not followed', () => {
    const bench = told();
    bench.run(0, 400);
    for (let t = 400; t < 520; t += 1) bench.forecasts.heard(reading('lye', t, null));
    const lane = bench.run(400, 520, { oils: OILS, room: ROOM });
    expect(lane?.lye.outlook).toMatchObject({ kind: 'none', why: 'silent' });
    expect(lane?.oils.outlook.kind).toBe('forecast');
    expect(lane?.meeting).toEqual({ kind: 'none', lye: 'silent', oils: null });
  });

  it('begins anew with the lye, with another batch, and when nobody knows how long the clock stood', () => {
    const bench = told();
    expect(outlooks(bench.run(0, 400))).toEqual(['forecast', 'forecast']);
    bench.forecasts.lyeMade(monotonic(400_000));
    expect(outlooks(bench.run(400, 440))).toEqual(['none', 'forecast']);
    bench.forecasts.forgetAll();
    expect(outlooks(bench.run(440, 480))).toEqual(['none', 'none']);
    bench.run(480, 800);
    bench.forecasts.look(null, monotonic(900_000));
    expect(outlooks(bench.forecasts.newest())).toEqual(['none', 'none']);
    expect(bench.forecasts.newest()?.meeting).toBeNull();
  });

  it('begins the drop of one vessel anew when a person says that it was moved, and says so', () => {
    const bench = told();
    bench.run(0, 400);
    bench.forecasts.moved('lye', monotonic(400_000));
    bench.forecasts.look(made().now, monotonic(400_000));
    const lane = bench.forecasts.newest();
    expect(outlooks(lane)).toEqual(['none', 'forecast']);
    expect(lane?.lye.outlook).toMatchObject({ why: 'not-yet', blocks: 0 });
    expect(lane?.lye.marks.at(-1)).toEqual({ turn: 'said', since: 400, noticed: 400 });
    expect(outlooks(bench.run(400, 620))).toEqual(['forecast', 'forecast']);
  });

  it('hears a second probe in the same vessel only when the first is silent, and then begins anew', () => {
    const bench = told();
    for (let t = 0; t < 400; t += 1) {
      bench.forecasts.heard(reading('lye', t, LYE(t)));
      bench.forecasts.heard(reading('lye', t, 95, 'probe-two'));
      bench.forecasts.look(null, monotonic(1000 * t + 500));
    }
    const lane = bench.forecasts.newest();
    if (lane?.lye.outlook.kind !== 'forecast') throw new Error('no forecast');
    expect(Math.abs((lane.lye.outlook.ahead[0]?.[2] ?? 0) / 1000 - LYE(lane.at / 1000))).toBeLessThan(0.3);
    const alone = told(null);
    expect(alone.run(0, 400, { lye: LYE })?.lye.outlook.kind).toBe('forecast');
    for (let t = 420; t < 460; t += 1) alone.forecasts.heard(reading('lye', t, 60, 'probe-two'));
    alone.forecasts.look(null, monotonic(461_000));
    expect(alone.forecasts.newest()?.lye.outlook).toMatchObject({ kind: 'none', why: 'not-yet' });
  });
});

/** Width of the interval of the lye 20 minutes ahead, thousandths of a degree. */
const widthOf = (lane: ForecastLane | null): number => {
  const one = lane?.lye.outlook;
  const ahead = one?.kind === 'forecast' ? one.ahead.find(([after]) => after >= 1_200) : undefined;
  return ahead === undefined ? Number.NaN : ahead[3] - ahead[1];
};

describe('the room', () => {
  const without = { lye: LYE, oils: OILS };

  it('as a person types it narrows what is forecast where no probe stands, less than a probe does; of another boot it says nothing', () => {
    const { now } = made();
    const said = (boot: string) => ({
      ...now,
      typedTemperatures: { room: { value: celsius(20), boot: as<BootId>(boot), mono: 0, entry: as<never>('e') } },
    });
    const unsaid = widthOf(told(now).run(0, 700, without));
    const typed = widthOf(told(said('boot')).run(0, 700, without));
    expect(typed).toBeLessThan(unsaid);
    expect(typed).toBeGreaterThan(widthOf(told(now).run(0, 700)));
    expect(widthOf(told(said('another')).run(0, 700, without))).toBe(unsaid);
  });
});

describe('what there is to meet', () => {
  it('is nothing before the lye is made, nor without a batch', () => {
    expect(told(started().weighAll().now).run(0, 400)?.meeting).toBeNull();
    expect(told(null).run(0, 400)?.meeting).toBeNull();
  });

  it('is judged by the rule that holds joining', () => {
    const { now } = made();
    const terms = termsOf(now.plan.joining);
    const temperature = fc.integer({ min: 250, max: 600 }).map((tenths) => tenths / 10);
    fc.assert(
      fc.property(temperature, temperature, (lye, oils) => {
        const holds = joiningHolds(now, { lye: celsius(lye), oils: celsius(oils), milk: null });
        const reasons = holds.map(({ reason, level }) => `${reason} ${level}`);
        const ours = againstAt(terms, lye, oils).map(({ reason, level }) => `${reason} ${level}`);
        // A hair of binary lies on an edge either way.
        if (Math.abs(Math.abs(lye - oils) - terms.apart) < 1e-9) return;
        expect(new Set(reasons)).toEqual(new Set(ours));
      }),
    );
  });
});

const liquid: Curve = () => 21;
const pot: Curve = () => 40;
/** Up by `rise` within minutes, and down again. */
const heats =
  (rise: number): Curve =>
  (t) =>
    21 + rise * (1 - Math.exp(-(t - 200) / 30)) * Math.exp(-Math.max(0, t - 320) / 6000);

/** Hydroxide that goes in slowly, and cools. */
const slowly = (t: number): number => 21 + Math.min(60, (t - 60) / 13) - Math.max(0, t - 900) / 30;

describe('the lye that is made', () => {
  const plain = planned(formula({ moulds: [{ mould: 'short-loaf', count: 1, fill: '90' }] })).plan;
  it('is foretold from its liquid, with the bound that locks go by', () => {
    const { making } = told(started(plain).weighAll().now).run(0, 60, { lye: liquid }) ?? {};
    expect(making?.start).toBe(21_000);
    expect(making?.atMost.value).toBeGreaterThan(95_000);
    expect(making?.atMost.value).toBeLessThan(115_000);
    expect(making?.likely.value).toBeLessThanOrEqual(making?.atMost.value ?? 0);
    expect(making?.found).toBeNull();
    // A plan that was typed has no chemistry to foretell from.
    expect(told(started().weighAll().now).run(0, 60, { lye: liquid })?.making).toBeNull();
    expect(told(null).run(0, 60, { lye: liquid })?.making).toBeNull();
  });

  it.each([
    ['as foretold', 72, 'as-foretold'],
    ['far below it, of too little hydroxide or into a cold jug', 40, 'below'],
    ['above what its masses allow', 120, 'above'],
  ])('is held against what it then does: %s', (_, rise, verdict) => {
    const rig = started(plain).weighAll();
    const bench = told(rig.now);
    bench.run(0, 200, { lye: liquid });
    bench.forecasts.lyeMade(monotonic(200_000));
    const after = rig.makeLye().now;
    const see = (from: number, until: number): ForecastLane | null => {
      for (let t = from; t < until; t += 1) {
        bench.forecasts.heard(reading('lye', t, heats(rise)(t)));
        bench.forecasts.look(after, monotonic(1000 * t + 500));
      }
      return bench.forecasts.newest();
    };
    expect(see(200, 300)?.making?.found).toBeNull();
    const { making } = see(300, 700) ?? {};
    expect(making?.found?.verdict).toBe(verdict);
    expect(Math.abs((making?.found?.highest ?? 0) - 1000 * (21 + rise))).toBeLessThan(2_500);
    expect(making?.advice).toBeNull();
  });

  it('of a milk says how to start so that it does not scorch', () => {
    const milk = planned(RICH, RICH_WORKSHOP).plan;
    const { making } = told(started(milk).now).run(0, 60, { lye: () => 5 }) ?? {};
    expect(['frozen', 'in-portions']).toContain(making?.advice?.kind);
  });

  it('in the oils by its probe and not in its own jug: the probes look swapped, until each is where it belongs', () => {
    const batch = made().now;
    const bench = told(batch);
    expect(bench.run(0, 200, { lye: liquid, oils: pot })?.swapped).toBe(false);
    bench.forecasts.lyeMade(monotonic(200_000));
    expect(bench.run(200, 300, { lye: liquid, oils: (t) => heats(45)(t) + 19 })?.swapped).toBe(true);
    expect(bench.run(300, 360, { lye: (t) => heats(45)(t) + 19, oils: liquid })?.swapped).toBe(false);
    bench.forecasts.lyeMade(monotonic(360_000));
    expect(bench.run(360, 500, { lye: (t) => heats(60)(t - 160), oils: (t) => 40 + (t - 360) / 30 })?.swapped).toBe(false);
  });

  it('after a restart is held against what the record has of it: what was foretold, and the top that was kept', () => {
    const rig = started(plain).weighAll();
    rig.lye = celsius(21);
    rig.makeLye();
    const again = told(rig.now).run(0, 60, { lye: () => 70 })?.making;
    expect(again).toMatchObject({ start: 21_000, found: null });
    expect(again?.likely.value).toBe(rig.now.lyeForetold?.likely.value);
    rig.must(
      'note-temperature',
      { use: 'lye', value: celsius(93), why: 'peak', source: { instrument: as<never>('p'), raw: '93' } },
      { role: 'program', via: 'server' },
    );
    expect(told(rig.now).run(0, 60, { lye: () => 50 })?.making?.found).toMatchObject({ highest: 93_000, verdict: 'as-foretold' });
  });

  it('is kept once it has clearly come down from its top, with what the probe said', () => {
    const rig = started(plain).weighAll();
    const bench = told(rig.now);
    bench.run(0, 60, { lye: liquid });
    bench.forecasts.lyeMade(monotonic(60_000));
    const after = rig.makeLye().now;
    const wants = [];
    for (let t = 60; t < 900; t += 1) {
      bench.forecasts.heard(reading('lye', t, heats(60)(t + 140)));
      wants.push(...bench.forecasts.wants(after));
    }
    expect(wants).toHaveLength(1);
    expect(wants[0]).toMatchObject({ kind: 'note-temperature', body: { use: 'lye', why: 'peak' } });
  });

  it('of probes that change places all at once says so, and no more when they change back', () => {
    const bench = told(made().now);
    const [hot, warm] = [(t: number) => 70 - t / 120, (t: number) => 46 - t / 300];
    expect(bench.run(0, 300, { lye: hot, oils: warm })?.swapped).toBe(false);
    expect(bench.run(300, 360, { lye: warm, oils: hot })?.swapped).toBe(true);
    expect(bench.run(360, 700, { lye: warm, oils: hot })?.swapped).toBe(true);
    expect(bench.run(700, 800, { lye: hot, oils: warm })?.swapped).toBe(false);
  });

  it('of oils that cool from where the lye was foretold to get, while its own probe never was there, says that they look swapped', () => {
    const rig = started(plain).weighAll();
    const bench = told(rig.now);
    // In the air beside its jug, the other one in the jug from the beginning.
    bench.run(0, 60, { lye: () => 21, oils: () => 21 });
    bench.forecasts.lyeMade(monotonic(60_000));
    rig.lye = celsius(21);
    const after = rig.makeLye().now;
    const seen: boolean[] = [];
    for (let t = 60; t < 1_100; t += 1) {
      bench.forecasts.heard(reading('lye', t, 21 + t / 400));
      bench.forecasts.heard(reading('oils', t, slowly(t)));
      bench.forecasts.look(after, monotonic(1000 * t + 500));
      seen.push(bench.forecasts.newest()?.swapped ?? false);
    }
    expect(seen[840]).toBe(false);
    expect(seen.at(-1)).toBe(true);
  });

  it('of two hydroxides is foretold once, from the liquid before the first', () => {
    const bench = told(started(planned(RICH, RICH_WORKSHOP).plan).now);
    const before = bench.run(0, 60, { lye: () => 5 })?.making;
    bench.forecasts.lyeMade(monotonic(60_000));
    const after = bench.run(60, 120, { lye: () => 48 })?.making;
    expect(after?.start).toBe(5_000);
    expect(after?.likely).toEqual(before?.likely);
  });
});

describe('at the bench', () => {
  it('goes out as a lane of its own, is there for whoever comes later, and begins anew after a restart', async () => {
    const before = made();
    const rig = await benchAfter(before);
    const lanes: ForecastLane[] = [];
    rig.bench.listen({ forecast: (lane) => lanes.push(lane) });
    for (let t = 0; t < 200; t += 1) {
      rig.bench.alive(TABLET, true);
      for (const [use, curve] of [
        ['lye', LYE],
        ['oils', OILS],
        ['room', ROOM],
      ] as const)
        rig.temperature(use, curve(t));
      await rig.pass(1_000);
    }
    expect(lanes.at(-1)?.lye.outlook.kind).toBe('forecast');
    expect(lanes.at(-1)?.meeting?.kind).toBe('meeting');
    expect(rig.bench.forecast()).toEqual(lanes.at(-1));
    expect(await rig.intent({ kind: 'moved', vessel: 'oils' })).toMatchObject({ ok: true });
    await rig.pass(1_100);
    expect(lanes.at(-1)?.oils).toMatchObject({ outlook: { why: 'not-yet' }, marks: [{ turn: 'said' }] });
    expect(lanes.at(-1)?.lye.outlook.kind).toBe('forecast');
    const again = benchRig({ journal: rig.journal, batch: rig.bench.batch(), boot: 'boot-two' });
    await again.pass(1_100);
    expect(again.bench.forecast()).toMatchObject({ boot: 'boot-two', lye: { outlook: { why: 'nothing-heard' } } });
  });
});
