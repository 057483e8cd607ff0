import { describe, expect, it } from 'vitest';
import { started } from '#tests/support/batch';
import { benchAfter } from '#tests/support/bench-after';
import { benchRig, TABLET } from '#tests/support/bench-rig';
import type { BenchRig } from '#tests/support/bench-rig';

const run = (rig: BenchRig, ms: number, oils: number | null): Promise<void> =>
  rig.pass(ms, () => {
    rig.bench.alive(TABLET, true);
    rig.weight(0);
    if (oils !== null) rig.temperature('oils', oils);
  });
const alarms = (rig: BenchRig) => Object.keys(rig.bench.batch()?.alarms ?? {});

describe('a probe that falls silent', () => {
  it('alarms from the first oils line on, and the alarm ends when it speaks again', async () => {
    const rig = benchRig();
    await rig.start();
    await run(rig, 3_000, 44);
    expect(rig.bench.batch()?.lines).toMatchObject({ coconut: { status: 'open', actual: 0 } });
    expect(alarms(rig)).toEqual([]);
    await run(rig, 12_000, null);
    expect(rig.bench.batch()?.alarms['probe-lost']).toMatchObject({ detail: 'oils' });
    await run(rig, 1_000, 44);
    expect(alarms(rig)).toEqual([]);
  });

  it('one that was never heard since the server started is not missed before the lye is made', async () => {
    const rig = benchRig();
    await rig.start();
    await run(rig, 20_000, null);
    expect(alarms(rig)).toEqual([]);
    const later = await benchAfter(started().weighAll().makeLye());
    await run(later, 1_000, null);
    expect(alarms(later)).toContain('probe-lost');
  });
});

const left = async (until: string): Promise<BenchRig> => {
  const rig = await benchAfter(started().weighAll(until));
  await run(rig, 2_000, 32);
  expect(alarms(rig)).toEqual([]);
  expect(await rig.intent({ kind: 'away' })).toMatchObject({ ok: true });
  await run(rig, 2_000, 32);
  expect(rig.bench.batch()?.away).not.toBeNull();
  return rig;
};

describe('oils that begin to set while nobody is there', () => {
  it('alarm as soon as all of them are in, long before the lye is made', async () => {
    const rig = await left('water');
    expect(alarms(rig)).toEqual(['oils-near-setting']);
    await run(rig, 1_000, 40);
    expect(alarms(rig)).toEqual([]);
  });

  it('while oils are still to be weighed they need not be warm', async () => {
    expect(alarms(await left('olive'))).toEqual([]);
  });
});
