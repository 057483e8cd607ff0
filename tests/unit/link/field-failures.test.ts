import { describe, expect, it } from 'vitest';
import { CLOSE_MS } from '#lib/measure/link/link';
import { SILENT_MS, UNREADABLE_MS } from '#lib/measure/link/line';
import { reopenAfter } from '#lib/measure/link/retry';
import { linkAdvice } from '#lib/measure/link/words';
import type { InstrumentConfig } from '#lib/measure/instrument';
import { probed, weighed } from '#tests/support/frames';
import { linkRig, probeConfig, scaleConfig } from './rig';

const frame = (config: InstrumentConfig): string => (config.kind === 'scale' ? weighed(100) : probed(43.25));

async function live(config: InstrumentConfig = scaleConfig('header-comma')) {
  const rig = linkRig(config);
  rig.link.start();
  await rig.time.advance(0);
  await rig.stream(frame(config), 10);
  expect(rig.link.status().phase).toBe('live');
  return rig;
}

describe('A2: a partial frame never survives a close', () => {
  const sent = weighed(12) + weighed(345.6) + weighed(7);
  // Goes on where it was cut, or at the same column of the next frame: the two halves would make a weight that nobody sent.
  const skips = [0, weighed(12).length];
  it.each(Array.from({ length: sent.length }, (_, cut) => skips.map((skip) => [cut, skip] as const)).flat())(
    'cut at byte %i, %i lost',
    async (cut, skip) => {
      const rig = await live();
      const before = rig.readings.length;
      rig.say(sent.slice(0, cut));
      rig.opener.newest().events.closed('lost');
      await rig.time.advance(200);
      rig.say(sent.slice(cut + skip));
      await rig.stream((n) => weighed(500 + n), 12);
      const whole = new Set([12_000, 345_600, 7_000, ...Array.from({ length: 12 }, (_, n) => 500_000 + n * 1000)]);
      expect(rig.values().length).toBeGreaterThan(before);
      for (const value of rig.values().slice(before)) expect(whole).toContain(value);
    },
  );
});

describe('B1: reading stops while the port stays open', () => {
  it('B1: is silent after two seconds, closed and opened anew after six', async () => {
    const rig = await live();
    await rig.time.advance(SILENT_MS);
    expect(rig.link.status()).toMatchObject({ phase: 'silent', failure: 'silent' });
    expect(rig.opener.newest().closes).toBe(0);
    await rig.time.advance(reopenAfter(0) - SILENT_MS + 500);
    expect(rig.opener.ports.map((port) => port.closes)).toEqual([1, 0]);
    expect(rig.link.status()).toMatchObject({ failure: 'silent', lossesLastHour: 1 });
    await rig.stream(weighed(100), 10);
    expect(rig.link.status()).toMatchObject({ phase: 'live', failure: null });
  });

  it('B1: comes alive by itself when the instrument speaks again', async () => {
    const rig = await live();
    await rig.time.advance(SILENT_MS);
    await rig.stream(weighed(100), 2);
    expect(rig.link.status()).toMatchObject({ phase: 'live', failure: null });
    expect(rig.opener.ports).toHaveLength(1);
  });

  it('B1: a close that never resolves does not stop the reopening', async () => {
    const rig = await live();
    rig.opener.plan.close = 'hang';
    await rig.time.advance(reopenAfter(0) + 100);
    expect(rig.opener.ports).toHaveLength(1);
    await rig.time.advance(CLOSE_MS + 200);
    expect(rig.opener.ports).toHaveLength(2);
    // The old close resolves at last: nothing more is opened for it.
    rig.opener.ports[0]?.release();
    await rig.time.advance(300);
    expect(rig.opener.ports).toHaveLength(2);
    expect(rig.time.most()).toBe(1);
  });

  it('B1: reopens less and less often while nothing comes', async () => {
    const rig = await live();
    await rig.time.advance(600_000);
    expect(rig.opener.ports.length).toBeGreaterThan(8);
    expect(rig.opener.ports.length).toBeLessThan(16);
  });

  it('B1: the time in which the process itself stood still is not the instrument’s silence', async () => {
    const rig = await live();
    rig.time.stall(reopenAfter(0) * 3);
    await rig.time.advance(100);
    expect(rig.link.status().phase).toBe('live');
    expect(rig.opener.ports).toHaveLength(1);
  });
});

describe('B2: ports change places', () => {
  it('B2: probe lines on a scale’s port are never a reading, and the link says who it hears', async () => {
    for (const shape of ['header-comma', null] as const) {
      const rig = linkRig(scaleConfig(shape));
      rig.link.start();
      await rig.time.advance(0);
      await rig.stream(probed(43.25), 30);
      expect(rig.readings).toEqual([]);
      expect(rig.link.status()).toMatchObject({ phase: 'identifying', failure: 'stranger' });
      expect(rig.link.status().detail).toContain('hears probe-line');
    }
  });

  it('B2: a scale’s frames on a probe’s port are never a reading', async () => {
    for (const shape of ['probe-line', null] as const) {
      const rig = linkRig(probeConfig(shape));
      rig.link.start();
      await rig.time.advance(0);
      await rig.stream(weighed(43.25), 30);
      expect(rig.readings).toEqual([]);
      expect(rig.link.status()).toMatchObject({ phase: 'identifying', failure: 'stranger' });
    }
  });

  it('B2: what the first opening proved binds the next: another shape is a stranger then', async () => {
    const rig = await live(scaleConfig(null));
    const readings = rig.readings.length;
    rig.opener.newest().events.closed('lost');
    await rig.time.advance(200);
    await rig.stream('S S     100.00 g\r\n', 30);
    expect(rig.readings).toHaveLength(readings);
    expect(rig.link.status()).toMatchObject({ failure: 'stranger', detail: 'hears letter-reply, expects header-comma' });
  });

  it('B2: a probe of another vessel is a stranger too', async () => {
    const rig = await live(probeConfig('probe-line'));
    const readings = rig.readings.length;
    await rig.stream(probed(30, 'O'), 60);
    expect(rig.readings).toHaveLength(readings);
    expect(rig.link.status()).toMatchObject({ phase: 'silent', failure: 'stranger' });
    expect(rig.opener.ports).toHaveLength(1);
  });

  it('B2: cables swapped back behind the adapters are noticed without a replug', async () => {
    const rig = linkRig(scaleConfig(null));
    rig.link.start();
    await rig.time.advance(0);
    await rig.stream(probed(43.25), 30);
    await rig.stream(weighed(100), 100);
    expect(rig.link.status()).toMatchObject({ phase: 'live', failure: null, shape: 'header-comma' });
    expect(rig.opener.ports).toHaveLength(1);
  });
});

describe('B5: opening reboots the instrument', () => {
  it('B5: the greeting and the first values behind it are no readings', async () => {
    for (const shape of ['probe-line', null] as const) {
      const rig = linkRig(probeConfig(shape));
      rig.link.start();
      await rig.time.advance(1_500);
      rig.say('probe board, four channels\r\n');
      await rig.stream(probed(85), 5);
      await rig.stream((n) => probed(43 + n / 10), 10);
      expect(rig.readings.length).toBeGreaterThan(5);
      expect(rig.values()).not.toContain(85_000);
      expect(rig.link.status().phase).toBe('live');
    }
  });

  it('B5: a greeting that comes late begins the wait anew', async () => {
    const rig = linkRig(probeConfig('probe-line'));
    rig.link.start();
    await rig.time.advance(0);
    await rig.stream(probed(40), 5);
    rig.say('probe board, four channels\r\n');
    await rig.stream(probed(85), 5);
    await rig.stream(probed(41), 10);
    expect(new Set(rig.values())).toEqual(new Set([41_000]));
  });

  it('B5: a line that is always a little noisy passes readings all the same', async () => {
    const rig = linkRig();
    rig.link.start();
    await rig.time.advance(0);
    for (let n = 0; n < 20; n += 1) {
      await rig.stream(weighed(100), 3);
      rig.say('#\r\n');
    }
    expect(rig.link.status().phase).toBe('live');
  });
});

describe('A8: a unit that is not weighed in', () => {
  it('A8: is told as that, not as a wrong speed, until a weight comes again', async () => {
    const rig = await live();
    const readings = rig.readings.length;
    await rig.stream('ST,+00100.00 lt\r\n', SILENT_MS / 100 + 5);
    expect(rig.readings).toHaveLength(readings);
    expect(rig.link.status()).toMatchObject({ phase: 'silent', failure: 'unreadable' });
    expect(linkAdvice(rig.link.status())?.said).toContain('unit');
    await rig.stream(weighed(100), 10);
    expect(linkAdvice(rig.link.status())).toBeNull();
  });
});

describe('B6: wrong speed', () => {
  it('B6: noise is said to be unreadable, whether the shape is known or not, and the port is tried anew', async () => {
    for (const shape of ['header-comma', null] as const) {
      const rig = linkRig(scaleConfig(shape));
      rig.link.start();
      await rig.time.advance(0);
      await rig.stream('\u00f8\u0000\u00e1~\u00ff'.repeat(20), UNREADABLE_MS / 100 + 5);
      expect(rig.link.status()).toMatchObject({ phase: 'identifying', failure: 'unreadable' });
      expect(linkAdvice(rig.link.status())?.todo).toContain('Speed');
      await rig.stream('\u00f8\u0000\u00e1~\u00ff'.repeat(20), 20);
      expect(rig.opener.ports.length).toBeGreaterThan(1);
      expect(rig.readings).toEqual([]);
    }
  });
});
