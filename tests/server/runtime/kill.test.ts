import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { BenchIntent } from '#lib/protocol/intent';
import type { RecordLane } from '#lib/protocol/lanes';
import { recordIn, stateHash } from '#tests/support/record-rig';
import { allHeard, freePort, screenAt, serverProcess, tempFolder } from '#tests/support/server-rig';
import type { ScreenRig, ServerProcess } from '#tests/support/server-rig';

const START = { kind: 'start', plan: 'alder-and-oat', lots: {} } as const;
const note = (text: string) => ({ kind: 'note', text }) as const;

describe('a server that is killed', () => {
  let folder: ReturnType<typeof tempFolder>;
  let port: number;
  let server: ServerProcess;
  let screens: ScreenRig[];
  const start = async (): Promise<void> => {
    server = await serverProcess(['--port', String(port), '--data', folder.path, '--scale', 'practice']);
  };
  const screen = async (): Promise<ScreenRig> => {
    const opened = screenAt(port);
    screens.push(opened);
    await opened.greeted();
    return opened;
  };
  beforeEach(async () => {
    folder = tempFolder();
    port = await freePort();
    screens = [];
    await start();
  });
  afterEach(async () => {
    for (const opened of screens) opened.close();
    await server.end('SIGKILL');
    folder.remove();
  });

  it('A5: taps made while it was dead are refused when it is back, and nothing of them is in the record', async () => {
    const tablet = await screen();
    await tablet.lease('take');
    await tablet.intent(START);
    await tablet.intent(note('before'));
    const boot = tablet.hellos[0]?.boot;
    await server.end('SIGKILL');
    await expect.poll(() => tablet.socket.connected).toBe(false);
    // The library keeps these and delivers them all on reconnecting: that is what the server must bear.
    const taps = [1, 2, 3].map((tap) => tablet.intent(note(`tap ${tap}`)));
    await start();
    await tablet.greeted(boot);
    for (const answer of await Promise.all(taps)) expect(answer).toMatchObject({ ok: false, refusal: { code: 'expired' } });
    await server.end('SIGKILL');
    const record = await recordIn(folder.path, 'practice');
    expect(record.entries.filter((entry) => entry.kind === 'noted').map((entry) => entry.body.text)).toEqual(['before']);
  });

  it('A5: the same id twice is one row, across the kill as well', async () => {
    const tablet = await screen();
    await tablet.lease('take');
    await tablet.intent(START);
    const boot = tablet.hellos[0]?.boot ?? '';
    const same: Partial<BenchIntent> = { id: 'the-same-intent', seen: { boot, episode: 0 } };
    expect(await tablet.intent(note('once'), same)).toMatchObject({ ok: true, repeated: false });
    expect(await tablet.intent(note('once'), same)).toMatchObject({ ok: true, repeated: true });
    await server.end('SIGKILL');
    await start();
    await tablet.greeted(boot);
    await tablet.lease('take');
    expect(await tablet.intent(note('once'), same)).toMatchObject({ ok: true, repeated: true });
    await server.end('SIGKILL');
    const record = await recordIn(folder.path, 'practice');
    expect(record.entries.filter((entry) => entry.kind === 'noted')).toHaveLength(1);
  });

  it('B9: comes back at the same batch, and goes on only when a person has said what is in the vessel', async () => {
    const tablet = await screen();
    await tablet.lease('take');
    await tablet.intent(START);
    const { boot } = await tablet.greeted();
    await server.end('SIGKILL');
    await start();
    const hello = await tablet.greeted(boot);
    expect(hello.batch.batch).toBe(tablet.batch()?.id);
    await tablet.lease('take');
    await tablet.frame((frame) => frame.cue.phase === 'resume');
    expect(await tablet.insist({ kind: 'join', held: true })).toMatchObject({ ok: false, refusal: { code: 'needs-resume' } });
  });

  it('B11: every screen has what the record has, after a blip and after a kill', async () => {
    const [tablet, phone] = [await screen(), await screen()];
    await tablet.lease('take');
    await tablet.intent(START);
    await expect.poll(() => phone.batch()?.mark).toBe(tablet.batch()?.mark);

    phone.socket.io.engine.close();
    await expect.poll(() => phone.socket.connected).toBe(false);
    for (let i = 0; i < 5; i += 1) await tablet.intent(note(`missed ${i}`));
    await expect.poll(() => phone.hellos.length).toBe(2);
    await expect.poll(() => stateHash(phone.batch()) === stateHash(tablet.batch())).toBe(true);

    const { boot } = await tablet.greeted();
    await server.end('SIGKILL');
    await start();
    await Promise.all([tablet.greeted(boot), phone.greeted(boot)]);
    await server.end('SIGKILL');
    const record = await recordIn(folder.path, 'practice');
    expect(record.sound).toBe(true);
    for (const one of [tablet, phone]) expect(stateHash(one.batch())).toBe(stateHash(record.at(one.batch())));
  });

  it('B11: a screen resumes by sequence number, and one that asks for another batch gets this one whole', async () => {
    const tablet = await screen();
    await tablet.lease('take');
    await allHeard(tablet);
    await tablet.intent(START);
    for (let i = 0; i < 3; i += 1) await tablet.intent(note(`${i}`));
    const resume = (batch: string | null, seq: number) =>
      new Promise<RecordLane>((resolve) => tablet.socket.emit('resume', { batch, seq }, resolve));
    const id = tablet.batch()?.id ?? '';
    const after = await resume(id, 2);
    expect(after.from).toBe(2);
    expect(after.lines).toHaveLength(after.seq - 2);
    for (const [batch, seq] of [
      ['another', 2],
      [id, 99],
    ] as const) {
      const whole = await resume(batch, seq);
      expect(whole).toMatchObject({ from: 0, lines: { length: whole.seq } });
      expect(whole.seq).toBeGreaterThanOrEqual(4);
    }
  });

  it('B21: fifty screens are all fresh again within five seconds', async () => {
    const all = await Promise.all(Array.from({ length: 50 }, screen));
    const { boot } = await (all[0] as ScreenRig).greeted();
    await Promise.all(all.map((one) => one.frame((frame) => frame.scales[0]?.gross !== null)));
    await server.end('SIGKILL');
    await start();
    const back = performance.now();
    await Promise.all(
      all.map(async (one) => {
        await one.greeted(boot);
        await one.frame((frame) => frame.boot !== boot && frame.scales[0]?.freshness === 'fresh' && frame.scales[0].gross !== null);
      }),
    );
    expect(performance.now() - back).toBeLessThan(5_000);
  });
});
