import { describe, expect, it } from 'vitest';
import { createMouldHeat } from '#lib/bench/pipeline/mould-heat';
import type { ProbeUse, TemperatureReading } from '#lib/measure/reading';
import { as } from '#lib/units/id';
import { celsius } from '#lib/units/temperature';
import { monotonic } from '#lib/units/time';
import type { Entry } from '#lib/work/batch/index';
import { started } from '#tests/support/batch';
import { benchAfter } from '#tests/support/bench-after';
import { TABLET } from '#tests/support/bench-rig';

const reading = (at: number, degrees: number, use: ProbeUse = 'mould'): TemperatureReading => ({
  kind: 'temperature',
  instrument: as('probe-mould'),
  seq: 1,
  at: monotonic(1000 * at),
  raw: new Uint8Array(),
  use,
  value: celsius(degrees),
  text: degrees.toFixed(3),
  fault: null,
});
const joined = started().weighAll().makeLye().join().now;
/** Up by `rise` about the first hour, and down again. */
const gel = (rise: number) => (t: number) => 38 + rise * Math.exp(-(((t - 3_600) / 1_500) ** 2));

const noted = (curve: (t: number) => number, hours: number, batch = joined) => {
  const heat = createMouldHeat();
  const wants = [];
  heat.wants(batch);
  for (let t = 0; t < hours * 3_600; t += 10) {
    heat.heard(reading(t, curve(t)));
    wants.push(...heat.wants(batch));
  }
  return wants;
};

const falling = (t: number) => gel(25)(3_600 + t);

describe('the heat of soap in its mould', () => {
  it('is kept once, at its top, with what the probe said', () => {
    const wants = noted(gel(25), 4);
    expect(wants).toHaveLength(1);
    expect(wants[0]).toMatchObject({
      kind: 'note-temperature',
      body: { use: 'mould', why: 'peak', value: 63_000, source: { instrument: 'probe-mould', raw: '63.000' } },
    });
  });

  it('is nothing while it still rises, where it only cools, and before lye and oils are together', () => {
    expect(noted(gel(25), 1)).toEqual([]);
    expect(noted((t) => 45 - t / 1_000, 4)).toEqual([]);
    expect(noted((t) => (t < 600 ? 40 - t / 200 : gel(4)(t) - 1), 4)).toHaveLength(1);
    expect(noted(gel(25), 4, started().weighAll().makeLye().now)).toEqual([]);
  });

  it('after a restart goes by the record: what the batter had tells a rise that nobody saw, and a top that was kept is not kept again', () => {
    expect(noted(falling, 2)).toMatchObject([{ body: { value: 63_000 } }]);
    // Seen from before it was joined, soap that only cools is no heat of its own.
    const seen = createMouldHeat();
    seen.wants(started().weighAll().makeLye().now);
    seen.wants(joined);
    for (let t = 0; t < 7_200; t += 10) seen.heard(reading(t, falling(t)));
    expect(seen.wants(joined)).toEqual([]);
    expect(noted(falling, 2, { ...joined, tops: { lye: null, mould: celsius(63) } })).toEqual([]);
  });

  it('comes into the record by the program, after closing too, and nobody else can state one', async () => {
    const rig = await benchAfter(started().weighAll().makeLye().join());
    rig.bench.alive(as(TABLET), true);
    expect(await rig.intent({ kind: 'close' })).toMatchObject({ ok: true });
    for (let t = 0; t < 900; t += 5) {
      rig.temperature('mould', t < 300 ? 38 + t / 30 : 48 - (t - 300) / 100);
      await rig.pass(5_000);
    }
    const { lines } = await rig.bench.lane(null, 0);
    const entries = lines.map((line) => JSON.parse(line) as Entry).filter(({ kind }) => kind === 'temperature-noted');
    expect(entries.map(({ body }) => body)).toMatchObject([{ use: 'mould', why: 'peak' }]);
    rig.bench.takeLease(as(TABLET), 'tablet');
    expect(await rig.intent({ kind: 'type-temperature', use: 'mould', value: 60_000 })).toMatchObject({ refusal: { code: 'wrong-state' } });
  });
});
