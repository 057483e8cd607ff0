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

const LYE_HOT = ['apart', 'lye-too-hot'];
const hot = async (): Promise<BenchRig> => benchAfter(started().weighAll().makeLye());
/** Seconds of both probes; `lye` by the second. */
const wait = async (rig: BenchRig, seconds: number, lye: (second: number) => number): Promise<void> => {
  let ticks = 0;
  await rig.pass(1000 * seconds, () => {
    rig.bench.alive(TABLET, true);
    rig.weight(0);
    rig.temperature('oils', 45);
    rig.temperature('lye', lye((ticks += 1) / 20));
  });
};
const temperatures = (rig: BenchRig): readonly string[] =>
  alarms(rig)
    .filter((code) => LYE_HOT.includes(code))
    .toSorted();

describe('hot lye that is waited for', () => {
  it('makes no sound while it cools, and joining is held all the same', async () => {
    const rig = await hot();
    await wait(rig, 15, (s) => 80 - s / 6);
    expect(temperatures(rig)).toEqual([]);
    expect(await rig.intent({ kind: 'join', held: true })).toMatchObject({ ok: false, refusal: { code: 'joining-held' } });
  });

  it('sounds once somebody would join without having overridden it, until it is cool', async () => {
    const rig = await hot();
    await wait(rig, 5, () => 80);
    expect(await rig.intent({ kind: 'override', reason: 'apart', held: true, note: '' })).toMatchObject({ ok: true });
    await wait(rig, 3, () => 80);
    expect(temperatures(rig)).toEqual(['lye-too-hot']);
    await wait(rig, 3, () => 46);
    expect(temperatures(rig)).toEqual([]);
  });

  it('sounds when a pedal holds the closed card of joining', async () => {
    const rig = await hot();
    await wait(rig, 5, () => 80);
    await rig.intent({ kind: 'press', key: 'go-on', hold: false });
    await rig.intent({ kind: 'press', key: 'go-on', hold: true });
    await wait(rig, 2, () => 80);
    expect(temperatures(rig)).toEqual(LYE_HOT);
  });
});
