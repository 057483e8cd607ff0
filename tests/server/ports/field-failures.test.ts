import { readdirSync } from 'node:fs';
import { performance } from 'node:perf_hooks';
import { afterEach, describe, expect, it } from 'vitest';
import { CLOSE_MS } from '#lib/measure/link/link';
import { probed, weighed } from '#tests/support/frames';
import { ptyPair, type Pty } from '#tests/support/pty';
import { probeOn, realLink, scaleOn, talk, type RealLink } from './rig';

/** Unplugs per run of B3; a long run sets it higher. */
const UNPLUGS = Number(process.env.UNPLUGS ?? 20);
const FAST = 10;

const tidy: (() => unknown)[] = [];
afterEach(async () => {
  for (const end of tidy.splice(0).toReversed()) await end();
});
const plug = async (): Promise<Pty> => {
  const pty = await ptyPair();
  tidy.push(() => pty.close());
  return pty;
};
const linked = (...args: Parameters<typeof realLink>): RealLink => {
  const real = realLink(...args);
  tidy.push(() => real.link.stop());
  return real;
};
const talking = (...args: Parameters<typeof talk>): { stop(): void } => {
  const instrument = talk(...args);
  tidy.push(() => instrument.stop());
  return instrument;
};
const isLive = ({ phase }: { phase: string }): boolean => phase === 'live';
const valueOf = (reading: RealLink['readings'][number]): number | null => (reading.kind === 'mass' ? reading.mass : reading.value);

describe('on a real tty', () => {
  it('A2: half a frame before an unplug and half after the replug make no reading', async () => {
    const pty = await plug();
    const { link, readings, status } = linked(scaleOn(pty.path), FAST);
    let talker = talking(pty, () => weighed(100), 10);
    await status(isLive);
    talker.stop();
    await pty.write('ST,+000');
    await pty.kill();
    await status(({ failure }) => failure === 'lost');
    await pty.replug();
    await status(({ phase }) => phase === 'identifying');
    await pty.write('345.60  g\r\n');
    talker = talking(pty, () => weighed(200), 10);
    await status(isLive);
    expect(new Set(readings.map(valueOf))).toEqual(new Set([100_000, 200_000]));
    expect(link.status().lossesLastHour).toBe(1);
  });

  it('B1: an open line that falls silent is closed and opened anew', async () => {
    const pty = await plug();
    const { link, status, reading } = linked(scaleOn(pty.path), FAST);
    const talker = talking(pty, () => weighed(100), 10);
    await status(isLive);
    talker.stop();
    await status(({ phase, failure }) => phase === 'silent' && failure === 'silent');
    await status(({ lossesLastHour, phase }) => lossesLastHour === 1 && phase === 'identifying');
    talking(pty, () => weighed(300), 10);
    expect(valueOf(await reading())).toBe(300_000);
    expect(link.status()).toMatchObject({ phase: 'live', failure: null });
  });

  it('B1: a line frozen in the cable is noticed and recovers', async () => {
    const pty = await plug();
    const { status, reading } = linked(scaleOn(pty.path), FAST);
    talking(pty, () => weighed(100), 10);
    await status(isLive);
    pty.stop();
    await status(({ lossesLastHour }) => lossesLastHour === 1);
    pty.cont();
    expect(valueOf(await reading())).toBe(100_000);
  });

  it('B2: a scale and a probe that change sockets give no value until they are changed back', async () => {
    const [one, two] = [await plug(), await plug()];
    const scale = linked(scaleOn(one.path, null), FAST);
    const probe = linked(probeOn(two.path, null), FAST);
    let talkers = [talking(one, () => weighed(43.25), 10), talking(two, () => probed(43.25), 10)];
    await Promise.all([scale.status(isLive), probe.status(isLive)]);
    const swap = async (): Promise<void> => {
      for (const talker of talkers) talker.stop();
      await Promise.all([one.kill(), two.kill()]);
      await Promise.all([scale, probe].map(({ status }) => status(({ failure }) => failure === 'lost' || failure === 'missing')));
      await Promise.all([one.replug(), two.replug()]);
    };
    await swap();
    const heard = [scale.readings.length, probe.readings.length];
    talkers = [talking(one, () => probed(43.25), 10), talking(two, () => weighed(43.25), 10)];
    const told = await Promise.all([scale, probe].map(({ status }) => status(({ failure }) => failure === 'stranger')));
    expect(told.map(({ detail }) => detail)).toEqual(['hears probe-line, expects header-comma', 'hears header-comma, expects probe-line']);
    expect([scale.readings.length, probe.readings.length]).toEqual(heard);
    await swap();
    talking(one, () => weighed(50), 10);
    talking(two, () => probed(50), 10);
    await Promise.all([scale.status(isLive), probe.status(isLive)]);
    expect(new Set(scale.readings.map((reading) => reading.kind))).toEqual(new Set(['mass']));
    expect(new Set(probe.readings.map((reading) => reading.kind))).toEqual(new Set(['temperature']));
  });

  it(
    `B3: ${UNPLUGS} unplugs: no wrong value, back within three seconds, nothing left open`,
    { timeout: 30_000 + UNPLUGS * 6_000 },
    async () => {
      const pty = await plug();
      const { link, readings, status } = linked(scaleOn(pty.path));
      const sent = new Set<number>();
      let grams = 100;
      const frame = (): string => {
        grams += 1;
        sent.add(grams * 1000);
        return weighed(grams);
      };
      const talker = talking(pty, frame);
      await status(isLive);
      const open = readdirSync('/proc/self/fd').length;
      const took: number[] = [];
      for (let n = 0; n < UNPLUGS; n += 1) {
        // Every other time right behind a whole frame: the hang-up then comes together with data.
        const text = frame();
        await pty.write(n % 2 === 0 ? text : text.slice(0, 1 + (n % (text.length - 1))));
        await pty.kill();
        await status(({ failure }) => failure !== null);
        await pty.replug();
        const back = performance.now();
        await status(isLive);
        took.push(performance.now() - back);
      }
      talker.stop();
      expect(readings.map(valueOf).filter((value) => value === null || !sent.has(value))).toEqual([]);
      const worst = Math.max(...took);
      console.info(
        `${UNPLUGS} unplugs: back after ${Math.round(took.toSorted((a, b) => a - b)[UNPLUGS >> 1] ?? 0)} ms (median), ${Math.round(worst)} ms (worst)`,
      );
      expect(worst).toBeLessThan(3_000);
      expect(link.status().lossesLastHour).toBe(UNPLUGS);
      expect(readdirSync('/proc/self/fd').length).toBe(open);
    },
  );

  it('B5: a greeting and power-on values behind the opening are no readings', async () => {
    const pty = await plug();
    const { readings, status } = linked(probeOn(pty.path));
    await status(({ phase }) => phase === 'identifying');
    await pty.write('probe board, four channels\r\n');
    let sent = 0;
    talking(pty, () => probed((sent += 1) <= 5 ? 85 : 43.25), 60);
    await status(isLive);
    expect(new Set(readings.map(valueOf))).toEqual(new Set([43_250]));
  });

  it('C2: the port can be opened again as soon as the link has stopped', async () => {
    const pty = await plug();
    const first = linked(scaleOn(pty.path), FAST);
    talking(pty, () => weighed(100), 10);
    await first.status(isLive);
    const asked = performance.now();
    await first.link.stop();
    expect(performance.now() - asked).toBeLessThan(CLOSE_MS);
    const second = linked(scaleOn(pty.path), FAST);
    const seen = await second.status(({ phase }) => phase !== 'opening');
    expect(seen.phase).toBe('identifying');
  });
});
