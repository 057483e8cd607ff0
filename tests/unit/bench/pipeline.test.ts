import { describe, expect, it } from 'vitest';
import { LEASE_GRACE_MS } from '#lib/bench/lease';
import { createHash } from 'node:crypto';
import { grams, mg } from '#lib/units/mass';
import { createStrips } from '#lib/bench/pipeline/strips';
import { monotonic } from '#lib/units/time';
import { benchRig, entriesIn, PHONE, SCALE, TABLET } from '#tests/support/bench-rig';
import type { BenchRig } from '#tests/support/bench-rig';

const shown = (rig: BenchRig): number | null => rig.bench.frame().scales[0]?.gross ?? null;
const kinds = async (rig: BenchRig): Promise<readonly string[]> => (await entriesIn(rig.journal)).map((entry) => entry.kind);

describe('A1: a frozen value never looks live', () => {
  it('a scale that falls silent has no number, and says what it said last and when', async () => {
    const rig = benchRig();
    await rig.pass(2_000, () => rig.weight(412.6));
    expect(shown(rig)).toBe(grams(412.6));
    await rig.pass(9_000);
    const scale = rig.bench.frame().scales[0];
    expect(scale).toMatchObject({ gross: null, freshness: 'lost', last: { gross: grams(412.6), age: 9_000 } });
    expect(rig.frames.at(-1)?.scales[0]?.gross).toBeNull();
  });

  it('a late value is no number either', async () => {
    const rig = benchRig();
    await rig.pass(2_000, () => rig.weight(100));
    await rig.pass(900);
    expect(rig.bench.frame().scales[0]).toMatchObject({ freshness: 'late', gross: null });
  });

  it('silence itself makes a frame: no reading is needed to blank the screen', async () => {
    const rig = benchRig();
    await rig.pass(2_000, () => rig.weight(100));
    const before = rig.frames.length;
    await rig.pass(5_000);
    expect(rig.frames.slice(before).some((frame) => frame.scales[0]?.freshness === 'lost')).toBe(true);
  });

  it('silence itself is entered and alarms while a batch is weighed, and so is its end', async () => {
    const rig = benchRig();
    await rig.pass(2_000, () => rig.weight(100));
    await rig.start();
    await rig.pass(5_000);
    expect(await kinds(rig)).toContain('instrument-lost');
    expect(rig.bench.frame().alarms.map(({ code }) => code)).toContain('scale-lost');
    await rig.pass(2_000, () => rig.weight(100));
    expect((await kinds(rig)).filter((kind) => kind.startsWith('instrument-'))).toEqual(['instrument-lost', 'instrument-back']);
  });

  it('nothing that comes from the record starts fresh', async () => {
    const first = benchRig();
    await first.pass(2_000, () => first.weight(100));
    const batch = await first.start();
    const rig = benchRig({ journal: first.journal, batch, boot: 'boot-two' });
    await rig.pass(200);
    expect(rig.bench.frame().scales[0]).toMatchObject({ gross: null, freshness: 'lost', last: null });
    expect(rig.bench.frame().cue.poured).toBeNull();
  });

  it('a suspect or overloaded weight is no number', async () => {
    const rig = benchRig();
    rig.weight(6_000);
    expect(rig.bench.frame().scales[0]).toMatchObject({ gross: null, suspect: 'beyond-capacity' });
    await rig.pass(100);
    rig.weight(0, { mass: null, range: 'over', text: '' });
    expect(rig.bench.frame().scales[0]).toMatchObject({ gross: null, range: 'over' });
  });

  it('a port that is lost takes its value with it at once', async () => {
    const rig = benchRig();
    await rig.pass(2_000, () => rig.weight(100));
    const status = { instrument: SCALE, phase: 'waiting', failure: 'lost', detail: '', shape: null, nature: null } as const;
    rig.inputs.status({ ...status, lossesLastHour: 1, retryInMs: 100, faults: {}, readings: 9 });
    expect(shown(rig)).toBeNull();
    expect(rig.frames.at(-1)?.scales[0]?.gross).toBeNull();
  });
});

describe('A3: what drains after a stall is not shown', () => {
  it('discards the backlog, counts it, and believes the next reading that comes at its own pace', async () => {
    const rig = benchRig();
    await rig.pass(3_000, () => rig.weight(100));
    const before = rig.frames.length;
    rig.stand(5_000);
    for (let i = 0; i < 45; i += 1) rig.weight(200 + i);
    expect(rig.frames.slice(before).every((frame) => (frame.scales[0]?.gross ?? 0) < grams(200))).toBe(true);
    expect(shown(rig)).toBeNull();
    expect(rig.inputs.discarded(SCALE)).toBe(45);
    await rig.pass(50);
    rig.weight(300);
    expect(shown(rig)).toBe(grams(300));
  });

  it('a page asking in the very moment after a stall gets no old number', async () => {
    const rig = benchRig();
    await rig.pass(3_000, () => rig.weight(100));
    rig.stand(5_000);
    expect(shown(rig)).toBeNull();
  });

  it('a standstill that a person would notice is entered while a batch is weighed', async () => {
    const rig = benchRig();
    await rig.start();
    await rig.pass(200);
    rig.stand(5_000);
    await rig.pass(50);
    const jump = (await entriesIn(rig.journal)).find((entry) => entry.kind === 'clock-jumped');
    expect(jump?.body).toMatchObject({ kind: 'stall' });
  });
});

describe('B10: the clock steps', () => {
  it.each([7_200_000, -7_200_000])('after a step of %i ms readings are lost, it is entered, and durations stay monotonic', async (step) => {
    const rig = benchRig();
    await rig.pass(2_000, () => rig.weight(100));
    await rig.start();
    rig.stepWall(step);
    rig.inputs.tick();
    await rig.inputs.idle();
    expect(rig.frames.at(-1)?.scales[0]).toMatchObject({ gross: null, freshness: 'lost' });
    const jump = (await entriesIn(rig.journal)).find((entry) => entry.kind === 'clock-jumped');
    expect(jump?.body).toEqual({ byMs: step, kind: 'wall-step' });
    await rig.pass(1_000, () => rig.weight(100));
    expect(shown(rig)).toBe(grams(100));
    expect((await kinds(rig)).filter((kind) => kind === 'clock-jumped')).toHaveLength(1);
  });

  it('after a suspend nothing looks fresh, although the monotonic clock stood still', async () => {
    const rig = benchRig();
    await rig.pass(2_000, () => rig.weight(100));
    await rig.start();
    rig.suspend(3_600_000);
    await rig.pass(50);
    expect(shown(rig)).toBeNull();
    const jump = (await entriesIn(rig.journal)).find((entry) => entry.kind === 'clock-jumped');
    expect(jump?.body).toEqual({ byMs: 3_600_000, kind: 'suspend' });
  });
});

describe('A6: one screen holds the bench', () => {
  const note = { kind: 'note', text: 'seen' } as const;

  it('only its holder is heard; another takes over explicitly and the first is then refused', async () => {
    const rig = benchRig();
    await rig.start();
    expect(await rig.intent(note, {}, PHONE)).toMatchObject({ ok: false, refusal: { code: 'not-in-control' } });
    rig.bench.takeLease(PHONE, 'phone');
    expect(await rig.intent(note, {}, PHONE)).toMatchObject({ ok: true });
    expect(await rig.intent(note, {}, TABLET)).toMatchObject({ ok: false, refusal: { code: 'not-in-control' } });
    expect(rig.bench.leaseFor(TABLET)).toMatchObject({ mine: false, label: 'phone' });
  });

  it('10 s after its page was last heard nothing is accepted; its next heartbeat gives it back', async () => {
    const rig = benchRig();
    await rig.start();
    await rig.pass(LEASE_GRACE_MS - 100);
    expect(await rig.intent(note)).toMatchObject({ ok: true });
    await rig.pass(200);
    expect(await rig.intent(note)).toMatchObject({ ok: false, refusal: { code: 'not-in-control' } });
    rig.bench.alive(TABLET, true);
    expect(await rig.intent(note)).toMatchObject({ ok: true });
  });

  it('falls free by itself 10 s after its page was closed, and every screen is told; a page that is only silent keeps it', async () => {
    const silent = benchRig();
    await silent.start();
    await silent.pass(2 * LEASE_GRACE_MS);
    expect(silent.bench.leaseFor(PHONE).label).not.toBeNull();

    const rig = benchRig();
    await rig.start();
    rig.bench.alive(TABLET, true);
    rig.bench.parted(TABLET);
    await rig.pass(LEASE_GRACE_MS - 100);
    expect(rig.bench.leaseFor(PHONE)).toMatchObject({ holder: TABLET, mine: false });
    const told: (string | null)[] = [];
    rig.bench.listen({ lease: () => void told.push(rig.bench.leaseFor(PHONE).holder) });
    await rig.pass(200);
    expect(told).toEqual([null]);
    expect(await rig.intent(note)).toMatchObject({ ok: false, refusal: { code: 'not-in-control' } });
    rig.bench.takeLease(PHONE, 'phone');
    expect(await rig.intent(note, {}, PHONE)).toMatchObject({ ok: true });
  });

  it('a hidden page renews nothing', async () => {
    const rig = benchRig();
    await rig.start();
    await rig.pass(LEASE_GRACE_MS + 100, () => rig.bench.alive(TABLET, false));
    expect(await rig.intent(note)).toMatchObject({ ok: false });
  });

  it('a watcher may silence and nothing else, whoever holds the bench', async () => {
    const rig = benchRig();
    const batch = await rig.start();
    const common = {
      batch: batch.id,
      expectedVersion: batch.version,
      seen: { boot: rig.bench.boot, episode: 0 },
      expires: rig.bench.now() + 1_000,
    };
    const watcher = { screen: PHONE, role: 'watcher' } as const;
    const press = (key: 'silence' | 'go-on') => ({ ...common, id: `watcher-${key}`, want: { kind: 'press', key, hold: false } }) as const;
    expect(await rig.bench.intent(watcher, press('silence'))).toMatchObject({ ok: true });
    expect(await rig.bench.intent(watcher, press('go-on'))).toMatchObject({ ok: false, refusal: { code: 'not-yours' } });
  });

  it('of two who race for one step the second sees that it moved on', async () => {
    const rig = benchRig();
    const batch = await rig.start();
    const seen = { expectedVersion: batch.version };
    const [first, second] = await Promise.all([
      rig.intent({ kind: 'park', reason: 'one' }, seen),
      rig.intent({ kind: 'park', reason: 'two' }, seen),
    ]);
    expect(first).toMatchObject({ ok: true });
    expect(second).toMatchObject({ ok: false, refusal: { code: 'moved-on' } });
    expect((await kinds(rig)).filter((kind) => kind === 'parked')).toHaveLength(1);
  });
});

describe('A5: a tap is meant now or not at all', () => {
  const note = { kind: 'note', text: 'x' } as const;

  it('is refused when its time is over, when it is post-dated, and when it was meant for another boot', async () => {
    const rig = benchRig();
    await rig.start();
    const now = rig.bench.now();
    expect(await rig.intent(note, { expires: now - 1 })).toMatchObject({ ok: false, refusal: { code: 'expired' } });
    expect(await rig.intent(note, { expires: now + 3_600_000 })).toMatchObject({ ok: false, refusal: { code: 'malformed' } });
    expect(await rig.intent(note, { seen: { boot: 'before', episode: 0 } })).toMatchObject({ ok: false, refusal: { code: 'expired' } });
    expect(await kinds(rig)).toEqual(['batch-started']);
  });

  it('sent twice under one id is done once, also when both are under way together', async () => {
    const rig = benchRig();
    await rig.start();
    const [first, second] = await Promise.all([rig.intent(note, { id: 'same-id-1' }), rig.intent(note, { id: 'same-id-1' })]);
    expect(first).toMatchObject({ ok: true, repeated: false });
    expect(second).toMatchObject({ ok: true, repeated: true });
    expect(await kinds(rig)).toEqual(['batch-started', 'noted']);
  });

  it('sent twice under one id is done once, also where it leaves nothing in the record', async () => {
    const rig = benchRig();
    await rig.pass(2_000, () => rig.weight(0));
    await rig.start();
    await rig.pass(1_000, () => rig.weight(0));
    const press = () => rig.intent({ kind: 'press', key: 'go-on', hold: false }, { id: 'same-id-2' });
    const first = await press();
    expect(first).toMatchObject({ ok: true, repeated: false });
    expect(await press()).toEqual({ ...first, repeated: true });
    expect(await kinds(rig)).toEqual(['batch-started']);
  });

  it('retried after a restart gets the answer it missed, and is not done again', async () => {
    const first = benchRig();
    await first.start();
    const done = await first.intent(note, { id: 'before-crash' });
    const rig = benchRig({ journal: first.journal, batch: first.bench.batch(), boot: 'boot-two' });
    rig.bench.takeLease(TABLET, 'tablet');
    const again = await rig.intent(note, { id: 'before-crash', seen: { boot: 'boot-one', episode: 0 } });
    expect(again).toEqual({ ...done, repeated: true });
    expect(await kinds(rig)).toEqual(['batch-started', 'noted']);
  });

  it('a press at a picture that is no longer there means nothing', async () => {
    const rig = benchRig();
    const batch = await rig.start();
    const press = { kind: 'press', key: 'go-on', hold: false } as const;
    await rig.intent(note);
    expect(await rig.intent(press, { expectedVersion: batch.version })).toMatchObject({ ok: false, refusal: { code: 'moved-on' } });
    const episode = rig.bench.frame().cue.episode + 1;
    expect(await rig.intent(press, { seen: { boot: rig.bench.boot, episode } })).toMatchObject({
      ok: false,
      refusal: { code: 'moved-on' },
    });
  });
});

describe('B9: after a restart nothing goes on before a person has said what is in the vessel', () => {
  it('takes notes, but no pour, until resumed', async () => {
    const first = benchRig();
    await first.start();
    const rig = benchRig({ journal: first.journal, batch: first.bench.batch(), boot: 'boot-two' });
    rig.bench.takeLease(TABLET, 'tablet');
    await rig.pass(200, () => rig.weight(642.5));
    expect(rig.bench.frame().cue.phase).toBe('resume');
    expect(await rig.intent({ kind: 'join', held: true })).toMatchObject({ ok: false, refusal: { code: 'needs-resume' } });
  });
});

it('a clock of fractions spoils no command, whatever was heard before: what is remembered of the lye as well', async () => {
  const rig = benchRig();
  rig.stand(0.372_73);
  await rig.pass(1_000, () => {
    rig.weight(0);
    for (const use of ['lye', 'oils', 'batter'] as const) rig.temperature(use, 40);
  });
  await rig.start();
  expect(await rig.intent({ kind: 'note', text: 'x' })).toMatchObject({ ok: true });
});

describe('frames', () => {
  it('a weight never waits behind a temperature, and no temperature is kept back for long', async () => {
    const rig = benchRig();
    await rig.pass(1_000, () => rig.weight(100));
    rig.temperature('oils', 44);
    const before = rig.frames.length;
    rig.temperature('oils', 45);
    expect(rig.frames).toHaveLength(before);
    rig.weight(101);
    expect(rig.frames).toHaveLength(before + 1);
    expect(rig.frames.at(-1)?.probes[0]?.value).toBe(45_000);
    rig.temperature('oils', 46);
    await rig.pass(300);
    expect(rig.frames.at(-1)?.probes[0]?.value).toBe(46_000);
  });

  it('the clock alone makes none while nothing a person would miss has changed', async () => {
    const rig = benchRig();
    await rig.pass(4_000);
    const before = rig.frames.length;
    await rig.pass(10_000);
    expect(rig.frames).toHaveLength(before);
  });
});

describe('a parked batch', () => {
  it('is taken up from the record, whatever was parked or made since; one that is not there is not made up', async () => {
    const rig = benchRig();
    const first = await rig.start();
    await rig.intent({ kind: 'note', text: 'half done' });
    await rig.intent({ kind: 'park', reason: 'lunch' });
    const second = await rig.start();
    expect(second.id).not.toBe(first.id);
    expect(await rig.intent({ kind: 'take-up', batch: first.id, note: '' })).toMatchObject({ refusal: { code: 'another-batch' } });
    await rig.intent({ kind: 'park', reason: 'dinner' });
    expect(await rig.intent({ kind: 'take-up', batch: 'batch-none', note: '' })).toMatchObject({ refusal: { code: 'no-such' } });
    expect(await rig.intent({ kind: 'take-up', batch: first.id, note: '', moulds: ['loaf'] })).toMatchObject({
      refusal: { code: 'no-such', params: { what: 'mould' } },
    });
    expect(await rig.intent({ kind: 'take-up', batch: first.id, note: '' })).toMatchObject({ ok: true });
    expect(rig.bench.batch()).toMatchObject({ id: first.id, status: 'weighing', version: first.version + 3 });
  });
});

describe('the record lane', () => {
  it('gives a page that follows it the state the server has', async () => {
    const rig = benchRig();
    await rig.start();
    await rig.intent({ kind: 'note', text: 'one' });
    await rig.intent({ kind: 'park', reason: 'two' });
    const whole = await rig.bench.lane(null, 0);
    expect(rig.lanes.map((lane) => [lane.from, lane.seq])).toEqual([
      [0, 1],
      [1, 2],
      [2, 3],
    ]);
    expect(rig.lanes.flatMap((lane) => lane.lines)).toEqual(whole.lines);
    expect((await rig.bench.lane(whole.batch, 2)).lines).toEqual(whole.lines.slice(2));
  });
});

const massAt = (at: number, mass: number | null) =>
  ({
    kind: 'mass',
    instrument: SCALE,
    seq: 1,
    at: monotonic(at),
    raw: new Uint8Array(),
    text: '',
    unit: 'g',
    mass: mass === null ? null : mg(mass),
    step: mg(100),
    motion: 'stable',
    range: mass === null ? 'over' : 'in',
    weighing: 'gross',
  }) as const;

describe('strips', () => {
  it('keeps a pour from just before its zero, in steps that sum to what was read, under its own hash', () => {
    const strips = createStrips();
    for (let i = 0; i < 100; i += 1) strips.reading(massAt(i * 100, i === 50 ? null : 1_000 + i * 7));
    strips.began(SCALE, monotonic(5_000));
    const strip = strips.cut(SCALE, monotonic(9_900));
    if (strip === null) throw new Error('no strip');
    expect(strip.sha256).toBe(createHash('sha256').update(strip.bytes).digest('hex'));
    const { scale } = JSON.parse(new TextDecoder().decode(strip.bytes)) as { scale: (number | null)[] };
    expect(scale).toHaveLength(2 * 80);
    const steps = scale.filter((_, i) => i % 2 === 1 && scale[i] !== null) as number[];
    expect(steps.reduce((sum, step) => sum + step, 0)).toBe(1_000 + 99 * 7);
  });

  it('is bounded however long the pour', () => {
    const strips = createStrips();
    for (let i = 0; i < 50_000; i += 1) strips.reading(massAt(i * 100, i));
    expect(strips.cut(SCALE, monotonic(5_000_000))?.bytes.length).toBeLessThan(60_000);
  });

  it('is nothing when nothing was read', () => {
    expect(createStrips().cut(SCALE, monotonic(0))).toBeNull();
  });
});
