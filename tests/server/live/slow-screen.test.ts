import { createServer } from 'node:http';
import type { Server } from 'node:http';
import type { AddressInfo, Socket } from 'node:net';
import { pino } from 'pino';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Bench, BenchListener } from '#lib/bench/pipeline/types';
import type { LiveFrame } from '#lib/protocol/live';
import { createHub } from '#server/live/hub';
import type { Hub } from '#server/live/hub';
import { LIVE_CAP_BYTES } from '#server/live/outlet';
import { benchRig } from '#tests/support/bench-rig';
import { screenAt } from '#tests/support/server-rig';
import type { ScreenRig } from '#tests/support/server-rig';

/** Far larger than a real frame, so that the kernel's own buffers are full within a second. */
const PADDING = 'x'.repeat(256 * 1024);
const EVERY_MS = 41;

/** The stream of bytes under a screen's socket. */
const pipeOf = (screen: ScreenRig): Socket => {
  const { transport } = screen.socket.io.engine as unknown as { transport: { ws: { _socket: Socket } } };
  return transport.ws._socket;
};

describe('B12: a screen that stops reading', () => {
  let http: Server;
  let hub: Hub;
  let port: number;
  let listener: BenchListener;
  let frames: number;
  let sending: NodeJS.Timeout;
  const pipes = new Set<Socket>();
  const frame = (): LiveFrame => {
    const { cue, ...rest } = rig.bench.frame();
    return {
      ...rest,
      n: frames,
      at: performance.now(),
      cue: { ...cue, cards: [{ code: PADDING, params: {}, hold: false, enabled: true, why: null }] },
    };
  };
  const rig = benchRig();
  beforeEach(async () => {
    frames = 0;
    const bench: Bench = {
      ...rig.bench,
      frame,
      listen(added) {
        listener = added;
        return () => {};
      },
    };
    http = createServer();
    http.on('connection', (socket: Socket) => pipes.add(socket));
    hub = createHub({
      http,
      bench,
      build: 'test',
      pairing: { code: () => '', redeem: () => ({ ok: false, waitMs: 0 }), knows: () => false },
      log: pino({ level: 'silent' }),
    });
    await new Promise<void>((resolve) => http.listen(0, '127.0.0.1', resolve));
    port = (http.address() as AddressInfo).port;
    sending = setInterval(() => {
      frames += 1;
      listener.frame?.(frame());
    }, EVERY_MS);
  });
  afterEach(async () => {
    clearInterval(sending);
    pipes.clear();
    await hub.close();
  });

  it('costs no more memory than one frame beyond the cap, delays nobody else, and then gets the newest with the count of what it missed', async () => {
    const slow = screenAt(port);
    await slow.greeted();
    const [slowPipe] = pipes;
    const other = screenAt(port);
    await other.greeted();
    pipeOf(slow).pause();
    const before = other.frames.length;
    let most = 0;
    // Shorter than the ping that would end it: what is looked at is the buffer, not the hang-up.
    const until = performance.now() + 3_500;
    await new Promise<void>((resolve) => {
      const look = setInterval(() => {
        most = Math.max(most, slowPipe?.writableLength ?? Infinity);
        if (performance.now() < until) return;
        clearInterval(look);
        resolve();
      }, 20);
    });
    expect(most).toBeGreaterThan(LIVE_CAP_BYTES);
    expect(most).toBeLessThan(LIVE_CAP_BYTES + 2 * PADDING.length);
    expect(other.frames.length - before).toBeGreaterThan(30);

    pipeOf(slow).resume();
    // Up to date again, it was told once of all that was left out for it; none of it had waited.
    await slow.frame((f) => frames - f.n < 10);
    expect(Math.max(...slow.frames.map(({ merged }) => merged))).toBeGreaterThan(10);
    slow.close();
    other.close();
  });

  it('is hung up on within the time of one ping, and then costs nothing', async () => {
    const slow = screenAt(port);
    await slow.greeted();
    pipeOf(slow).pause();
    expect(hub.screens()).toBe(1);
    await expect.poll(() => hub.screens(), { timeout: 7_000 }).toBe(0);
    // With everything that waited for it: a peer that does not read does not answer a closing handshake either.
    await expect.poll(() => [...pipes].every((pipe) => pipe.destroyed)).toBe(true);
    slow.close();
  });
});
