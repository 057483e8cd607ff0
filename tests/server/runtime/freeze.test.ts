import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { encode, leadIn, still } from '#tests/support/encode-frames';
import { ptyPair } from '#tests/support/pty';
import type { Pty } from '#tests/support/pty';
import { screenAt, serverProcess, tempFolder } from '#tests/support/server-rig';
import type { ServerProcess } from '#tests/support/server-rig';

/** No weight on a screen may be older than this. */
const OLDEST_MS = 500;

describe('a server that stands still', () => {
  let folder: ReturnType<typeof tempFolder>;
  let pty: Pty;
  let server: ServerProcess;
  let sending: NodeJS.Timeout;
  let began: number;
  /** A scale that shows its own clock: 0.01 g for every millisecond. */
  const elapsed = (): number => Math.round(performance.now() - began);
  beforeEach(async () => {
    folder = tempFolder();
    pty = await ptyPair();
    began = performance.now();
    await pty.write(leadIn('header-comma', still(0, 2)));
    sending = setInterval(() => void pty.write(encode('header-comma', still(elapsed(), 2))), 100);
    server = await serverProcess(['--port', '0', '--data', folder.path, '--scale', `${pty.path},header-comma`]);
  });
  afterEach(async () => {
    clearInterval(sending);
    server.child.kill('SIGCONT');
    await server.end('SIGKILL');
    await pty.close();
    folder.remove();
  });

  it('A3: shows nothing of what piled up: after five seconds of stall no weight on a screen is older than half a second', async () => {
    const screen = screenAt(server.port);
    /** The server's clock when a frame was made, less the scale's own clock in it: two clocks apart, plus the weight's age. */
    const apart: number[] = [];
    screen.socket.on('live', (frame) => {
      const gross = frame.scales[0]?.gross ?? null;
      if (gross !== null) apart.push(frame.at - gross / 10);
    });
    await expect.poll(() => apart.length).toBeGreaterThan(20);
    const clocksApart = Math.min(...apart);
    server.child.kill('SIGSTOP');
    await new Promise((resolve) => setTimeout(resolve, 5_000));
    apart.length = 0;
    server.child.kill('SIGCONT');
    await expect.poll(() => apart.length).toBeGreaterThan(20);
    const ages = apart.map((both) => both - clocksApart);
    screen.close();
    expect(Math.max(...ages)).toBeLessThan(OLDEST_MS);
    const response = await fetch(`http://127.0.0.1:${server.port}/api/instruments`);
    const page = (await response.json()) as { instruments: { status: { faults: Record<string, number> } }[] };
    expect(page.instruments[0]?.status.faults['stall-discard']).toBeGreaterThan(20);
  });

  it('A1: a scale that falls silent on an open port loses its number on every screen', async () => {
    const screen = screenAt(server.port);
    // Long enough for its rhythm to be known: a scale heard once is given the benefit of a slow one.
    await expect.poll(() => screen.frames.filter((frame) => frame.scales[0]?.gross !== null).length).toBeGreaterThan(15);
    clearInterval(sending);
    const silent = performance.now();
    const lost = await screen.frame((frame) => frame.scales[0]?.freshness === 'lost');
    expect(performance.now() - silent).toBeLessThan(3_000);
    // The port is open still: silence alone took the number.
    expect(lost.scales[0]?.gross).toBeNull();
    expect(['live', 'silent']).toContain(lost.scales[0]?.link);
    expect(lost.scales[0]?.last?.age).toBeGreaterThan(1_000);
    screen.close();
  });
});
