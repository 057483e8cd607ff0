import { describe, expect, it } from 'vitest';
import { createCourse } from '#lib/bench/pipeline/course';
import type { ProbeUse, TemperatureReading } from '#lib/measure/reading';
import { as } from '#lib/units/id';
import { celsius } from '#lib/units/temperature';
import { monotonic } from '#lib/units/time';
import type { Entry } from '#lib/work/batch/index';
import { review } from '#lib/work/batch/review';
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
    }
    const answer = await rig.intent({ kind: 'join', held: true });
    expect(answer).toMatchObject({ ok: true });
    const { lines } = await rig.bench.lane(null, 0);
    const entries = lines.map((line) => JSON.parse(line) as Entry);
    const joined = entries.find(({ kind }) => kind === 'joined');
    if (joined?.kind !== 'joined') throw new Error('not joined');
    expect(joined.body.course?.everyS).toBe(60);
    expect(joined.body.course?.oils.filter((value) => value !== null)).toContain(43_000);
    const course = review(entries).joining?.course;
    expect(course).toEqual(joined.body.course);
    expect((course?.lye.length ?? 0) - (course?.oils.length ?? 0)).toBe(0);
    expect(upcast(joined)).toMatchObject({ ok: true });
    expect(upcast({ ...joined, body: { ...joined.body, course: { everyS: 60, lye: ['42'], oils: [] } } })).toMatchObject({ ok: false });
    expect(review(started().weighAll().makeLye().join().entries).joining?.course).toBeNull();
  });
});
