import { describe, expect, it } from 'vitest';
import { CLOSE_MS, SLOW_OPEN_MS } from '#lib/measure/link/link';
import { weighed } from '#tests/support/frames';
import { linkRig, scaleConfig } from './rig';

/** Opened, proved and settled: live. */
async function live(rig = linkRig()) {
  rig.link.start();
  await rig.time.advance(0);
  await rig.stream(weighed(100), 10);
  expect(rig.link.status()).toMatchObject({ phase: 'live', failure: null });
  return rig;
}

describe('link', () => {
  it('goes from closed over opening and identifying to live, and its readings pass from then on', async () => {
    const rig = await live();
    expect(rig.phases()).toEqual(['opening', 'identifying', 'live']);
    expect(rig.link.status()).toMatchObject({ shape: 'header-comma', nature: 'serial', lossesLastHour: 0, retryInMs: null });
    const before = rig.readings.length;
    await rig.stream((n) => weighed(200 + n), 3);
    expect(rig.values().slice(before)).toEqual([200_000, 201_000, 202_000]);
  });

  it.each(['busy', 'denied', 'missing', 'ambiguous', 'failed'] as const)(
    'keeps %s apart from every other refusal and retries',
    async (code) => {
      const rig = linkRig();
      rig.opener.plan.open = code;
      rig.link.start();
      await rig.time.advance(0);
      expect(rig.link.status()).toMatchObject({ phase: 'waiting', failure: code, detail: `system says ${code}` });
      expect(rig.link.status().retryInMs).toBeGreaterThan(0);
      rig.opener.plan.open = 'open';
      await rig.time.advance(200);
      expect(rig.link.status()).toMatchObject({ phase: 'identifying', failure: code });
      await rig.stream(weighed(100), 10);
      expect(rig.link.status()).toMatchObject({ phase: 'live', failure: null, detail: '' });
    },
  );

  it('retries quickly first and never slower than every 1.4 s', async () => {
    const rig = linkRig();
    rig.opener.plan.open = 'missing';
    rig.link.start();
    const opens = [0];
    for (let ms = 0; ms < 10_000; ms += 10) {
      const before = rig.opener.ports.length;
      await rig.time.advance(10);
      if (rig.opener.ports.length > before) opens.push(ms);
    }
    const gaps = opens.slice(1).map((at, n) => at - (opens[n] ?? 0));
    expect(gaps[0]).toBeLessThan(150);
    expect(Math.max(...gaps)).toBeLessThan(1_400);
    expect(opens.length).toBeLessThan(16);
  });

  it('counts a loss, opens anew with a fresh wire and is live again', async () => {
    const rig = await live();
    rig.opener.newest().events.closed('lost');
    expect(rig.link.status()).toMatchObject({ phase: 'waiting', failure: 'lost', lossesLastHour: 1 });
    await rig.time.advance(200);
    await rig.stream(weighed(100), 10);
    expect(rig.link.status()).toMatchObject({ phase: 'live', failure: null, lossesLastHour: 1 });
    expect(rig.opener.ports).toHaveLength(2);
  });

  it('forgets losses after an hour', async () => {
    const rig = await live();
    rig.opener.newest().events.closed('lost');
    await rig.time.advance(200);
    rig.time.stall(3_600_000);
    expect(rig.link.status().lossesLastHour).toBe(0);
  });

  it('has one timer whatever arrives: an end told twice, a refusal behind it and a late chunk start one opening only', async () => {
    const rig = await live();
    const { events } = rig.opener.newest();
    events.closed('lost');
    events.closed('lost');
    events.data(new TextEncoder().encode(weighed(5)), rig.time.clock.now());
    const readings = rig.readings.length;
    await rig.time.advance(300);
    expect(rig.opener.ports).toHaveLength(2);
    expect(rig.readings).toHaveLength(readings);
    expect(rig.link.status().lossesLastHour).toBe(1);
    expect(rig.time.most()).toBe(1);
  });

  it('says that an open hangs, waits for it and does not start a second', async () => {
    const rig = linkRig();
    rig.opener.plan.open = 'hang';
    rig.link.start();
    await rig.time.advance(SLOW_OPEN_MS * 3);
    expect(rig.link.status()).toMatchObject({ phase: 'opening', failure: 'failed' });
    expect(rig.opener.ports).toHaveLength(1);
    rig.opener.newest().release();
    await rig.time.advance(0);
    expect(rig.link.status().phase).toBe('identifying');
    await rig.stream(weighed(100), 10);
    expect(rig.link.status()).toMatchObject({ phase: 'live', failure: null });
  });

  it('stops in the middle of an open: the port that comes too late is closed, not used', async () => {
    const rig = linkRig();
    rig.opener.plan.open = 'hang';
    rig.link.start();
    await rig.time.advance(0);
    let freed = false;
    void rig.link.stop().then(() => (freed = true));
    await rig.time.advance(0);
    expect(freed).toBe(false);
    rig.opener.newest().release();
    await rig.time.advance(0);
    expect(freed).toBe(true);
    expect(rig.opener.newest().closes).toBe(1);
    expect(rig.link.status().phase).toBe('closed');
  });

  it.each(['waiting', 'live'] as const)('stops while %s: the port is closed and nothing is opened again', async (phase) => {
    const rig = await live();
    if (phase === 'waiting') rig.opener.newest().events.closed('lost');
    await rig.link.stop();
    const opened = rig.opener.ports.length;
    const readings = rig.readings.length;
    rig.say(weighed(1));
    await rig.time.advance(60_000);
    expect(rig.opener.ports).toHaveLength(opened);
    expect(rig.readings).toHaveLength(readings);
    expect(rig.statuses.at(-1)?.phase).toBe('closed');
    expect(rig.time.waiting()).toBe(0);
    if (phase === 'live') expect(rig.opener.newest().closes).toBe(1);
  });

  it('bounds a close that never resolves when stopping', async () => {
    const rig = await live();
    rig.opener.plan.close = 'hang';
    let freed = false;
    void rig.link.stop().then(() => (freed = true));
    await rig.time.advance(CLOSE_MS - 1);
    expect(freed).toBe(false);
    await rig.time.advance(1);
    expect(freed).toBe(true);
  });

  it('may be stopped from inside its own sink: nothing of the same chunk follows', async () => {
    const rig = await live();
    const sent = rig.readings.length;
    rig.readings.push = (...items) => {
      void rig.link.stop();
      return Array.prototype.push.apply(rig.readings, items);
    };
    rig.say(weighed(1) + weighed(2) + weighed(3));
    expect(rig.readings).toHaveLength(sent + 1);
    expect(rig.link.status().phase).toBe('closed');
  });

  it('shows the newest raw frames with age and what each was taken for', async () => {
    const rig = await live();
    rig.say('nonsense\r\n');
    await rig.time.advance(250);
    rig.say(weighed(7));
    const [reading, fault] = rig.link.rawFrames();
    expect(reading).toMatchObject({ ageMs: 0, took: '+00007.00 g stable' });
    expect(new TextDecoder().decode(reading?.bytes)).toBe('ST,+00007.00  g');
    expect(fault).toMatchObject({ ageMs: 250, took: 'grammar' });
    expect(rig.link.rawFrames().some((frame) => frame.took.endsWith('withheld'))).toBe(true);
    for (let n = 0; n < 100; n += 1) rig.say(weighed(n));
    expect(rig.link.rawFrames()).toHaveLength(32);
  });

  it('counts faults by name over every opening', async () => {
    const rig = await live();
    rig.say('nonsense\r\n');
    const { faults } = rig.link.status();
    expect(faults.grammar).toBe(1);
    rig.opener.newest().events.closed('lost');
    await rig.time.advance(200);
    await rig.stream(weighed(100), 10);
    expect(rig.link.status().faults['first-partial']).toBeGreaterThan(faults['first-partial'] ?? 0);
    expect(rig.faults).toContain('grammar');
  });

  it('says nothing twice: a status is told when something in it changed', async () => {
    const rig = await live();
    const told = rig.statuses.length;
    await rig.stream(weighed(100), 50);
    expect(rig.statuses).toHaveLength(told);
  });
});

describe('asking', () => {
  const REPLY = 'S S     100.00 g\r\n';

  it('asks an instrument that speaks only when asked, again after each answer and patiently without one', async () => {
    const rig = linkRig(scaleConfig('letter-reply'));
    rig.link.start();
    await rig.time.advance(150);
    expect(rig.opener.newest().written).toEqual(['SI\r\n']);
    await rig.time.advance(500);
    expect(rig.opener.newest().written).toHaveLength(1);
    await rig.time.advance(600);
    expect(rig.opener.newest().written).toHaveLength(2);
    for (let n = 0; n < 20; n += 1) {
      rig.say(REPLY);
      await rig.time.advance(200);
    }
    expect(rig.link.status()).toMatchObject({ phase: 'live', shape: 'letter-reply' });
    expect(rig.opener.newest().written.length).toBeGreaterThan(18);
  });

  it('tries every known request on a dumb scale of unknown shape and keeps to the one that is answered', async () => {
    const rig = linkRig(scaleConfig(null));
    rig.link.start();
    const asked: string[] = [];
    for (let n = 0; n < 80; n += 1) {
      const before = rig.opener.newest()?.written.length ?? 0;
      await rig.time.advance(100);
      const now = rig.opener.newest().written.slice(before);
      asked.push(...now);
      if (now.includes('IP\r\n')) rig.say('    100.00 g      \r\n');
    }
    expect(asked.slice(0, 2)).toEqual(['SI\r\n', 'IP\r\n']);
    expect(new Set(asked.slice(1))).toEqual(new Set(['IP\r\n']));
    expect(rig.link.status()).toMatchObject({ phase: 'live', shape: 'right-query' });
  });

  it('leaves a scale of unknown shape alone that speaks by itself', async () => {
    const rig = linkRig(scaleConfig(null));
    rig.link.start();
    await rig.time.advance(0);
    await rig.stream(weighed(100), 30);
    expect(rig.link.status()).toMatchObject({ phase: 'live', shape: 'header-comma' });
    expect(rig.opener.newest().written).toEqual([]);
  });
});
