import { request } from 'node:http';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { IntentAnswer } from '#lib/protocol/intent';
import type { RunningServer } from '#server/server';
import { allHeard, optionsFor, screenAt, serverHere, tempFolder, wentOn } from '#tests/support/server-rig';
import type { ScreenRig } from '#tests/support/server-rig';

const NOTE = { kind: 'note', text: 'seen' } as const;
const START = { kind: 'start', plan: 'alder-and-oat', lots: {} } as const;

describe('screens of one bench', () => {
  let folder: ReturnType<typeof tempFolder>;
  let server: RunningServer;
  let screens: ScreenRig[];
  const open = async (...how: Parameters<typeof screenAt> extends [number, ...infer More] ? More : never): Promise<ScreenRig> => {
    const screen = screenAt(server.port, ...how);
    screens.push(screen);
    await screen.greeted();
    return screen;
  };
  beforeEach(async () => {
    folder = tempFolder();
    screens = [];
    server = await serverHere(optionsFor(folder.path));
  });
  afterEach(async () => {
    for (const screen of screens) screen.close();
    await server.stop();
    folder.remove();
  });

  it('are greeted with who they are and what the bench is', async () => {
    const screen = await open();
    expect(screen.hellos[0]).toMatchObject({
      protocol: 1,
      realm: 'practice',
      role: 'maker',
      batch: { batch: null, from: 0, lines: [] },
      lease: { holder: null, mine: false },
    });
    const frame = await screen.frame((f) => f.scales.every((scale) => scale.gross !== null));
    expect(frame.boot).toBe(screen.hellos[0]?.boot);
    expect(frame.scales.map((scale) => scale.role)).toEqual(['main', 'fine']);
  });

  it('A4: hear a beat every second with boot, frame number, time and ages', async () => {
    const screen = await open();
    const beats = await new Promise<number[]>((resolve) => {
      const at: number[] = [];
      screen.socket.on('beat', (beat) => {
        expect(beat.boot).toBe(screen.hellos[0]?.boot);
        expect(Object.keys(beat.ages)).toEqual(['practice-main', 'practice-fine', 'lye', 'oils', 'room']);
        at.push(beat.at);
        if (at.length === 3) resolve(at);
      });
    });
    const gaps = beats.slice(1).map((at, i) => at - (beats[i] ?? 0));
    // A page goes blank after three seconds without one.
    for (const gap of gaps) expect(gap).toBeLessThan(2_000);
  });

  it('A6: of two that race for one step one is heard, and a takeover is explicit and told to the other', async () => {
    const [tablet, phone] = [await open(), await open()];
    await tablet.lease('take', 'tablet at the bench');
    await allHeard(tablet);
    expect((await phone.lease('look')).holder).toBe(tablet.hellos[0]?.screen);
    expect(await tablet.intent(START)).toMatchObject({ ok: true });
    const race = async (): Promise<IntentAnswer> => {
      await expect.poll(() => phone.batch()?.version).toBe(tablet.batch()?.version);
      const [one, other] = await Promise.all([
        tablet.intent({ kind: 'park', reason: 'tablet' }),
        phone.intent({ kind: 'park', reason: 'phone' }),
      ]);
      expect(other).toMatchObject({ ok: false, refusal: { code: 'not-in-control' } });
      return wentOn(one) ? race() : one;
    };
    expect(await race()).toMatchObject({ ok: true });

    expect(await phone.lease('take', 'phone')).toMatchObject({ mine: true });
    await expect.poll(() => tablet.leases.at(-1)).toMatchObject({ mine: false, label: 'phone' });
    expect(await tablet.intent(NOTE)).toMatchObject({ ok: false, refusal: { code: 'not-in-control' } });
    expect(await phone.intent(NOTE)).toMatchObject({ ok: true });
  });

  it('A6: closing one page closes nothing for the other', async () => {
    const [tablet, phone] = [await open(), await open()];
    await tablet.lease('take', 'tablet');
    await tablet.intent(START);
    tablet.close();
    await expect.poll(() => phone.leases.at(-1)?.lostForMs).toBeTypeOf('number');
    await phone.frame((frame) => frame.scales[0]?.freshness === 'fresh');
    // Within its grace the page may come back: only a person takes it from there.
    expect(await phone.lease('take-free', 'phone')).toMatchObject({ mine: false });
    await phone.lease('take', 'phone');
    expect(await phone.intent(NOTE)).toMatchObject({ ok: true });
    // Given back, it is any page's that asks.
    await phone.lease('release', '');
    expect(await phone.lease('take-free', 'phone')).toMatchObject({ mine: true });
  });

  it('follow the record line by line, and fold what the server folded', async () => {
    const [tablet, phone] = [await open(), await open()];
    await tablet.lease('take');
    await allHeard(tablet);
    await tablet.intent(START);
    for (let i = 0; i < 20; i += 1) expect(await tablet.intent(NOTE)).toMatchObject({ ok: true });
    expect(tablet.batch()?.version).toBeGreaterThan(20);
    // Both at the same line, whichever it is: the program may add lines of its own.
    await expect.poll(() => phone.batch()?.version === tablet.batch()?.version).toBe(true);
    expect(phone.batch()).toEqual(tablet.batch());
  });

  it('are the same screen again when their page says so, and the older connection ends', async () => {
    const first = await open({ screen: 'a-secret-of-one-page' });
    await first.lease('take', 'tablet');
    const again = await open({ screen: 'a-secret-of-one-page' });
    expect(again.hellos[0]?.screen).toBe(first.hellos[0]?.screen);
    expect(again.hellos[0]?.lease.mine).toBe(true);
    await expect.poll(() => first.socket.connected).toBe(false);
    // The page's name is public, its secret is not.
    expect(again.hellos[0]?.screen).not.toContain('secret');
    const other = await open({ screen: again.hellos[0]?.screen ?? '' });
    expect(other.hellos[0]?.lease.mine).toBe(false);
  });

  it('steer the practice scene, if they may', async () => {
    const tablet = await open();
    const act = { act: 'set-down', vessel: 'oils-pot' };
    const said = await new Promise<{ ok: boolean }>((resolve) => tablet.socket.emit('scene', act, resolve));
    expect(said).toHaveProperty('ok');
  });
});

describe('A13: a screen elsewhere', () => {
  let folder: ReturnType<typeof tempFolder>;
  let server: RunningServer;
  // A forwarded request comes from wherever the proxy lets in: a stranger as far as this machine knows.
  const ELSEWHERE = { 'x-forwarded-for': '192.0.2.7' };
  beforeEach(async () => {
    folder = tempFolder();
    server = await serverHere(optionsFor(folder.path, { allowHosts: ['bench.test'], host: '0.0.0.0' }));
  });
  afterEach(async () => {
    await server.stop();
    folder.remove();
  });

  it('watches and silences, until opened with the one-time code; then it stays a maker', async () => {
    const screen = screenAt(server.port, {}, ELSEWHERE);
    expect(await screen.greeted()).toMatchObject({ role: 'watcher' });
    expect(await screen.lease('take')).toMatchObject({ mine: false });
    expect(await screen.intent(START)).toMatchObject({ ok: false, refusal: { code: 'not-yours' } });
    expect(await screen.intent({ kind: 'press', key: 'silence', hold: false })).toMatchObject({ ok: true });

    const code = new URL(server.tabletAddress() ?? '').searchParams.get('code');
    const pair = (said: string | null) =>
      new Promise<{ ok: boolean; token?: string }>((resolve) => screen.socket.emit('pair', { code: said }, resolve));
    expect(await pair('WRNG-CODE')).toMatchObject({ ok: false });
    const paired = await pair(code);
    expect(paired.ok).toBe(true);
    await expect.poll(() => screen.hellos.at(-1)?.role).toBe('maker');
    expect(await screen.lease('take')).toMatchObject({ mine: true });
    expect(await pair(code)).toMatchObject({ ok: false });
    screen.close();

    const again = screenAt(server.port, { token: paired.token ?? '' }, ELSEWHERE);
    expect(await again.greeted()).toMatchObject({ role: 'maker' });
    again.close();
    const forged = screenAt(server.port, { token: `${paired.token?.slice(0, -4)}AAAA` }, ELSEWHERE);
    expect(await forged.greeted()).toMatchObject({ role: 'watcher' });
    forged.close();
  });

  it('is one that a proxy on this machine lets in without a word: it asks by the name the proxy has', async () => {
    const name = `bench.test:${server.port}`;
    for (const headers of [{ host: name }, { origin: `http://${name}` }] as const) {
      const screen = screenAt(server.port, {}, headers);
      expect(await screen.greeted()).toMatchObject({ role: 'watcher' });
      screen.close();
      const asked = await fetch(`http://127.0.0.1:${server.port}/api/qr`, { headers: { origin: `http://${name}` } });
      expect(asked.status).toBe(403);
    }
    expect((await fetch(`http://127.0.0.1:${server.port}/api/qr`)).status).toBe(200);
  });

  it('takes no room from the bench: however many watch, the machine itself is let in', async () => {
    const watchers = Array.from({ length: 64 }, () => screenAt(server.port, {}, ELSEWHERE));
    await Promise.all(watchers.map((watcher) => watcher.greeted()));
    const one = screenAt(server.port, {}, ELSEWHERE);
    // Refused, or let in for one that was silent for too long.
    await Promise.race([new Promise((resolve) => one.socket.once('connect_error', resolve)), one.greeted()]);
    await expect.poll(() => [...watchers, one].filter(({ socket }) => socket.connected).length).toBe(64);
    const here = screenAt(server.port);
    expect(await here.greeted()).toMatchObject({ role: 'maker' });
    for (const screen of [...watchers, one, here]) screen.close();
  });
});

describe('A13: Host and Origin, on every way in', () => {
  let folder: ReturnType<typeof tempFolder>;
  let server: RunningServer;
  beforeEach(async () => {
    folder = tempFolder();
    server = await serverHere(optionsFor(folder.path, { allowHosts: ['bench.test'] }));
  });
  afterEach(async () => {
    await server.stop();
    folder.remove();
  });
  const status = (path: string, headers: Record<string, string>): Promise<number | undefined> =>
    new Promise((resolve, reject) => {
      const asked = request({ host: '127.0.0.1', port: server.port, path, headers }, (answer) => {
        answer.resume();
        resolve(answer.statusCode);
      });
      asked.on('upgrade', (answer, socket) => {
        socket.destroy();
        resolve(answer.statusCode);
      });
      asked.on('error', reject).end();
    });
  const UPGRADE = {
    connection: 'Upgrade',
    upgrade: 'websocket',
    'sec-websocket-version': '13',
    'sec-websocket-key': Buffer.from('sixteen bytes ok').toString('base64'),
  };
  const ours = () => `127.0.0.1:${server.port}`;

  it.each(['/', '/api/health', '/socket.io/?EIO=4&transport=polling'])('evil Host or Origin on %s: 403', async (path) => {
    expect(await status(path, { host: 'evil.example' })).toBe(403);
    expect(await status(path, { host: ours(), origin: 'http://evil.example' })).toBe(403);
    expect(await status(path, { host: ours(), origin: 'null' })).toBe(403);
    expect(await status(path, { host: ours(), origin: `http://${ours()}` })).not.toBe(403);
  });

  it('ends an upgrade that nobody here answers', async () => {
    await expect(status('/elsewhere', { ...UPGRADE, host: ours() })).rejects.toThrow(/hang up/);
  });

  it('evil Host or Origin on a WebSocket: 403; ours comes in', async () => {
    const path = '/socket.io/?EIO=4&transport=websocket';
    expect(await status(path, { ...UPGRADE, host: 'evil.example' })).toBe(403);
    expect(await status(path, { ...UPGRADE, host: ours(), origin: 'http://evil.example' })).toBe(403);
    expect(await status(path, { ...UPGRADE, host: ours(), origin: 'null' })).toBe(403);
    expect(await status(path, { ...UPGRADE, host: ours(), origin: `http://${ours()}` })).toBe(101);
    expect(await status(path, { ...UPGRADE, host: `bench.test:${server.port}`, origin: `http://bench.test:${server.port}` })).toBe(101);
  });
});
