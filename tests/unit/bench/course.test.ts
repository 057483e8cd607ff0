import { describe, expect, it } from 'vitest';
import { createCourse } from '#lib/bench/pipeline/course';
import type { Course } from '#lib/bench/pipeline/course';
import type { ProbeUse, TemperatureReading } from '#lib/measure/reading';
import type { ForecastLane } from '#lib/protocol/forecast';
import type { Mark } from '#lib/soap/cooling/types';
import { as } from '#lib/units/id';
import { celsius } from '#lib/units/temperature';
import { monotonic } from '#lib/units/time';
import type { Entry } from '#lib/work/batch/index';
import { review } from '#lib/work/batch/review';
import { metAfter } from '#lib/work/batch/review/met';
import { upcast } from '#lib/work/batch/upcast';
import { started } from '#tests/support/batch';
import { benchAfter } from '#tests/support/bench-after';
import { TABLET } from '#tests/support/bench-rig';

const reading = (use: ProbeUse, at: number, degrees: number | null, instrument = 'probe-one'): TemperatureReading => ({
  kind: 'temperature',
  instrument: as(instrument),
  seq: 1,
  at: monotonic(1000 * at),
  raw: new Uint8Array(),
  use,
  value: degrees === null ? null : celsius(degrees),
  text: '',
  fault: degrees === null ? 'disconnected' : null,
});

const row = (after: number) => [after, 40_000, 41_000, 42_000] as const;

/** Told so many seconds on: a meeting in ten to thirty minutes, or none. */
const lane = (at: number, meets: boolean, marks: readonly Mark[] = []): ForecastLane => {
  const outlook = { kind: 'forecast', since: 0, until: 1_200, setting: false, ahead: [0, 30, 120, 600, 1_800].map(row) } as const;
  const when = { kind: 'in', low: 600, middle: 1_000, high: 1_800 } as const;
  const meeting = { kind: 'meeting', when, joinable: when, against: [], acts: [], setting: null } as const;
  const vessel = { outlook, marks };
  const rest = { boot: 'boot-1', batch: null, making: null, swapped: false };
  return { ...rest, at: 1000 * at, lye: vessel, oils: { outlook, marks: [] }, meeting: meets ? meeting : null };
};

/** From the 11th minute to the hour; the lye falls into the window at once, as nothing does. */
const heard = (): Course => {
  const course = createCourse();
  for (let t = 660; t < 3_600; t += 30) {
    course.heard(reading('lye', t, t < 1_500 ? 60 : 44));
    course.heard(reading('oils', t, 42));
  }
  return course;
};

describe('what was foretold of the way', () => {
  const bath: Mark = { turn: 'faster', since: 900.4, noticed: 1_000 };

  it('is the first meeting told after the newest change, on the clock of the course and as far as it was told', () => {
    const course = heard();
    for (const one of [lane(700, false), lane(760, true), lane(820, true)]) course.told(one);
    expect(course.of(900_000)).toMatchObject({ foretold: { at: 100, meets: { low: 600, middle: 1_000, high: 1_800 } } });
    for (const one of [lane(1_000, false, [bath]), lane(1_200, true, [bath]), lane(1_260, true, [bath])]) course.told(one);
    const taken = course.of(3_599_000);
    expect(taken?.marks).toEqual([{ of: 'lye', turn: 'faster', since: 240, noticed: 340 }]);
    expect(taken?.foretold?.at).toBe(540);
    expect(taken?.foretold?.oils.map(({ after }) => after)).toEqual([0, 120, 600]);
    course.forget();
    course.heard(reading('lye', 3_600, 40));
    expect(course.of(3_650_000)).not.toHaveProperty('foretold');
  });

  it('is held on review against when they truly met, by the terms of the batch', () => {
    const course = heard();
    course.told(lane(760, true));
    const joining = started().now.plan.joining;
    const taken = course.of(3_599_000);
    if (taken === null) throw new Error('no course');
    // From the 26th minute on the lye has 44 °C: 25.5 min on the clock, 12 2/3 min had gone.
    expect(metAfter(taken, joining)).toBe(1_500 + 30 - 760);
    expect(metAfter({ ...taken, lye: taken.lye.map(() => celsius(60)) }, joining)).toBeNull();
    expect(metAfter({ everyS: 60, lye: taken.lye, oils: taken.oils }, joining)).toBeNull();
  });
});

describe('the way lye and oils took until they were joined', () => {
  it('is one mean a minute, with a hole where nothing was heard', () => {
    const course = createCourse();
    expect(course.of(0)).toBeNull();
    for (let t = 60; t < 300; t += 1) {
      course.heard(reading('lye', t, t < 180 ? 60 + (t % 2) : null));
      course.heard(reading('oils', t, 40));
      course.heard(reading('room', t, 20));
    }
    expect(course.of(299_000)).toEqual({
      everyS: 60,
      lye: [60_500, 60_500, null, null],
      oils: [40_000, 40_000, 40_000, 40_000],
    });
  });

  it('is two hours at most, of one probe in each vessel, and forgotten with its batch', () => {
    const course = createCourse();
    for (let t = 0; t < 4 * 3_600; t += 10) {
      course.heard(reading('lye', t, 50));
      course.heard(reading('lye', t, 90, 'probe-two'));
    }
    const taken = course.of(4 * 3_600_000 - 1);
    expect(taken?.lye).toHaveLength(120);
    expect(new Set(taken?.lye)).toEqual(new Set([50_000]));
    course.forget();
    expect(course.of(4 * 3_600_000)).toBeNull();
  });

  it('stands in the record of the joining, reads back, and is there on review; without it older records review as before', async () => {
    const rig = await benchAfter(started().weighAll().makeLye());
    for (let t = 0; t < 130; t += 1) {
      rig.bench.alive(as(TABLET), true);
      rig.temperature('lye', 42 - t / 100);
      rig.temperature('oils', 43);
      await rig.pass(1_000);
      if (t === 120) expect(await rig.intent({ kind: 'moved', vessel: 'lye' })).toMatchObject({ ok: true });
    }
    const answer = await rig.intent({ kind: 'join', held: true });
    expect(answer).toMatchObject({ ok: true });
    const { lines } = await rig.bench.lane(null, 0);
    const entries = lines.map((line) => JSON.parse(line) as Entry);
    const joined = entries.find(({ kind }) => kind === 'joined');
    if (joined?.kind !== 'joined') throw new Error('not joined');
    expect(joined.body.course?.everyS).toBe(60);
    expect(joined.body.course?.marks).toMatchObject([{ of: 'lye', turn: 'said' }]);
    expect(joined.body.course?.oils.filter((value) => value !== null)).toContain(43_000);
    const course = review(entries).joining?.course;
    expect(course).toEqual(joined.body.course);
    expect((course?.lye.length ?? 0) - (course?.oils.length ?? 0)).toBe(0);
    expect(upcast(joined)).toMatchObject({ ok: true });
    const told = heard();
    told.told(lane(760, true));
    const foretold = { ...joined.body.course, foretold: told.of(900_000)?.foretold };
    expect(upcast({ ...joined, body: { ...joined.body, course: foretold } })).toMatchObject({ ok: true });
    expect(upcast({ ...joined, body: { ...joined.body, course: { ...foretold, foretold: { at: 1 } } } })).toMatchObject({ ok: false });
    expect(upcast({ ...joined, body: { ...joined.body, course: { everyS: 60, lye: ['42'], oils: [] } } })).toMatchObject({ ok: false });
    expect(review(started().weighAll().makeLye().join().entries).joining?.course).toBeNull();
  });
});
