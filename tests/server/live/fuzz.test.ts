import fc from '#tests/support/property';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { RunningServer } from '#server/server';
import { optionsFor, screenAt, serverHere, tempFolder } from '#tests/support/server-rig';
import type { ScreenRig } from '#tests/support/server-rig';

const EVENTS = ['intent', 'resume', 'lease', 'pair', 'scene', 'alive', 'hello', 'no such event', '__proto__', 'constructor'];

const raw = (screen: ScreenRig) => screen.socket as unknown as { emit(event: string, ...args: unknown[]): void };

describe('B13: no message kills the server', () => {
  let folder: ReturnType<typeof tempFolder>;
  let server: RunningServer;
  const died: unknown[] = [];
  const note = (error: unknown): void => void died.push(error);
  beforeAll(async () => {
    process.on('uncaughtException', note);
    process.on('unhandledRejection', note);
    folder = tempFolder();
    server = await serverHere(optionsFor(folder.path));
  });
  afterAll(async () => {
    await server.stop();
    folder.remove();
    process.off('uncaughtException', note);
    process.off('unhandledRejection', note);
  });

  const connected = async (): Promise<ScreenRig> => {
    const screen = screenAt(server.port);
    await screen.greeted();
    return screen;
  };

  it('whatever is said, in whatever shape, with or without a way to answer', async () => {
    let screen = await connected();
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(...EVENTS),
        fc.array(fc.oneof(fc.anything({ withNullPrototype: false, maxDepth: 3 }), fc.jsonValue(), fc.uint8Array({ maxLength: 50 })), {
          maxLength: 3,
        }),
        fc.boolean(),
        async (event, args, acked) => {
          if (!screen.socket.connected) screen = await connected();
          if (acked) raw(screen).emit(event, ...args, () => {});
          else raw(screen).emit(event, ...args);
        },
      ),
      { numRuns: 300 },
    );
    screen.close();
    const after = await connected();
    expect(await after.lease('look')).toHaveProperty('holder');
    after.close();
    expect(died).toEqual([]);
  });

  it('answers what is malformed, and answers what is nearly right as malformed too', async () => {
    const screen = await connected();
    const ask = (event: string, said: unknown) => new Promise<unknown>((resolve) => raw(screen).emit(event, said, resolve));
    const good = {
      id: 'intent-good-1',
      batch: null,
      expectedVersion: null,
      seen: { boot: 'x', episode: 0 },
      expires: 1,
      want: { kind: 'press', key: 'go-on', hold: false },
    };
    const malformed = { ok: false, refusal: { code: 'malformed', params: {} } };
    expect(await ask('intent', good)).toMatchObject({ ok: false, refusal: { code: 'expired' } });
    for (const bad of [
      null,
      'x',
      [],
      {},
      { ...good, id: '' },
      { ...good, id: '../../etc' },
      { ...good, expires: '1' },
      { ...good, want: { kind: 'drop' } },
    ])
      expect(await ask('intent', bad)).toEqual(malformed);
    expect(await ask('resume', { seq: -1 })).toMatchObject({ from: -1 });
    expect(await ask('pair', { code: 7 })).toMatchObject({ ok: false });
    expect(await ask('scene', { act: 'explode' })).toEqual({ ok: false, why: 'malformed' });
    expect(await ask('lease', 'take')).toHaveProperty('holder', null);
    screen.close();
  });

  it('hangs up on a message larger than any of ours, and on a page that does not stop', async () => {
    const large = await connected();
    raw(large).emit('intent', 'x'.repeat(200_000));
    await expect.poll(() => large.socket.connected).toBe(false);
    large.close();

    const loud = await connected();
    const answers: unknown[] = [];
    for (let i = 0; i < 1_000; i += 1) raw(loud).emit('lease', { want: 'look', label: '' }, (answer: unknown) => answers.push(answer));
    await new Promise((resolve) => loud.socket.once('disconnect', resolve));
    loud.close();
    const next = await connected();
    next.close();
    expect(died).toEqual([]);
  });

  it('refuses what comes faster than a hand, and listens again afterwards', async () => {
    const screen = await connected();
    const ask = () => new Promise<{ refusal?: { code: string } }>((resolve) => raw(screen).emit('intent', { not: 'one' }, resolve));
    const codes = await Promise.all(Array.from({ length: 150 }, ask));
    expect(new Set(codes.map((answer) => answer.refusal?.code))).toEqual(new Set(['malformed', 'too-fast']));
    await expect.poll(async () => (await ask()).refusal?.code).toBe('malformed');
    screen.close();
  });
});
