import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { InstrumentsPage, PlanList } from '#lib/protocol/http';
import { SAMPLE_PLANS } from '#lib/work/formula/sample';
import type { RunningServer } from '#server/server';
import { encode, leadIn, still } from '#tests/support/encode-frames';
import { FIRST_PREPARED, prepareFirst } from '#tests/support/first-formula';
import { ptyPair } from '#tests/support/pty';
import { scaleAt } from '#tests/support/scale-config';
import { optionsFor, screenAt, serverHere, tempFolder } from '#tests/support/server-rig';
import type { ScreenRig } from '#tests/support/server-rig';

const post = async (at: RunningServer, path: string, body: unknown): Promise<InstrumentsPage> => {
  const answer = await fetch(`http://127.0.0.1:${at.port}${path}`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
  expect(answer.status).toBe(200);
  return (await answer.json()) as InstrumentsPage;
};

const plansAt = async (at: RunningServer): Promise<readonly string[]> => {
  const { plans } = (await (await fetch(`http://127.0.0.1:${at.port}/api/plans`)).json()) as PlanList;
  return plans.map(({ id }) => id);
};

describe('what a record is worth', () => {
  let folder: ReturnType<typeof tempFolder>;
  let server: RunningServer | null;
  let screens: ScreenRig[];
  const start = async (...more: Parameters<typeof optionsFor> extends [string, ...infer More] ? More : never): Promise<RunningServer> => {
    server = await serverHere(optionsFor(folder.path, ...more));
    return server;
  };
  const screen = async (at: RunningServer): Promise<ScreenRig> => {
    const opened = screenAt(at.port);
    screens.push(opened);
    await opened.greeted();
    return opened;
  };
  beforeEach(() => {
    folder = tempFolder();
    server = null;
    screens = [];
  });
  afterEach(async () => {
    for (const opened of screens) opened.close();
    await server?.stop();
    folder.remove();
  });

  it('is never practice in the place of a real record that cannot be read, which is left as it is and told of', async () => {
    writeFileSync(join(folder.path, 'real.sqlite'), 'no record any more');
    const at = await start({ practice: false, past: true });
    expect([at.realm, at.readOnly]).toEqual(['real', expect.stringMatching(/real\.sqlite cannot be read.*npm run restore/)]);
    expect((await fetch(`http://127.0.0.1:${at.port}/api/health`)).status).toBe(503);
    const named = await fetch(`http://127.0.0.1:${at.port}/api/people`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ name: 'Wren', role: 'maker' }),
    });
    expect([named.status, await named.json()]).toEqual([
      503,
      expect.objectContaining({ error: expect.stringContaining('cannot be read') as string }),
    ]);
    await at.stop();
    expect(existsSync(join(folder.path, 'practice.sqlite'))).toBe(false);
    expect(readFileSync(join(folder.path, 'real.sqlite'), 'utf8')).toBe('no record any more');
    // Asked for by name it is there all the same.
    expect((await start({ practice: true })).realm).toBe('practice');
  });

  it('is practice while nobody has bound anything, and a person leaves it for the real, empty workshop, for good', async () => {
    const first = await start({ practice: false });
    const tablet = await screen(first);
    expect(tablet.hellos[0]?.realm).toBe('practice');
    await tablet.lease('take');
    expect(await tablet.intent({ kind: 'start', plan: 'alder-and-oat', lots: {} })).toMatchObject({ ok: true });
    const { boot } = await tablet.greeted();
    const page = await post(first, '/api/instruments/leave-practice', { leave: 'practice' });
    expect(page).toMatchObject({ realm: 'real', instruments: [], leavePractice: false });
    const real = await tablet.greeted(boot);
    expect(real).toMatchObject({ realm: 'real', batch: { batch: null, lines: [] } });
    // What was invented stays in practice: its lots were never received here.
    expect(await plansAt(first)).toEqual([]);
    await tablet.lease('take');
    for (const { id } of SAMPLE_PLANS)
      expect(await tablet.intent({ kind: 'start', plan: id, lots: {} })).toMatchObject({ ok: false, refusal: { code: 'no-such' } });
    expect(tablet.batch()).toBeNull();
    await prepareFirst(first.port);
    expect(await plansAt(first)).toEqual([FIRST_PREPARED]);
    await first.stop();
    const second = await start({ practice: false });
    expect(second.realm).toBe('real');
    expect(existsSync(join(folder.path, 'practice.sqlite'))).toBe(true);
  });

  it('is a test while an instrument is a pseudo-terminal, in a file of its own', async () => {
    const pty = await ptyPair();
    const running = await start({ practice: false, instruments: [scaleAt(pty.path)] });
    expect(running.realm).toBe('test');
    expect(existsSync(join(folder.path, 'test.sqlite'))).toBe(true);
    await running.stop();
    await pty.close();
  });

  it('is real although a pseudo-terminal, when the person said so at the start, and every record says that', async () => {
    const pty = await ptyPair();
    const running = await start({ practice: false, ptyIsReal: true, instruments: [scaleAt(pty.path)] });
    const tablet = await screen(running);
    expect(tablet.hellos[0]).toMatchObject({ realm: 'real', bench: expect.stringContaining('pseudo-terminal') });
    await tablet.lease('take');
    await prepareFirst(running.port);
    expect(await tablet.intent({ kind: 'start', plan: FIRST_PREPARED, lots: {} })).toMatchObject({ ok: true });
    expect(tablet.batch()?.bench).toContain('pseudo-terminal');
    await running.stop();
    await pty.close();
  });

  it('is never real by a pseudo-terminal that was plugged in only later', async () => {
    const pty = await ptyPair();
    await pty.kill();
    const running = await start({ practice: false, instruments: [scaleAt(pty.path)] });
    const tablet = await screen(running);
    const hello = await tablet.greeted();
    expect(hello.realm).toBe('real');
    await pty.replug();
    const sending = setInterval(() => void pty.write(encode('header-comma', still(1_000, 1))), 100);
    await pty.write(leadIn('header-comma', still(1_000, 1)));
    expect(await tablet.greeted(hello.boot)).toMatchObject({ realm: 'test' });
    const shown = await tablet.frame((frame) => frame.scales[0]?.gross !== null);
    expect(shown.boot).not.toBe(hello.boot);
    clearInterval(sending);
    await running.stop();
    await pty.close();
  });

  it('stays what it was while a batch is weighed: the pseudo-terminal is refused instead', async () => {
    const pty = await ptyPair();
    await pty.kill();
    const running = await start({ practice: false, instruments: [scaleAt(pty.path)] });
    const tablet = await screen(running);
    await tablet.lease('take');
    await prepareFirst(running.port);
    expect(await tablet.intent({ kind: 'start', plan: FIRST_PREPARED, lots: {} })).toMatchObject({ ok: true });
    await pty.replug();
    await expect
      .poll(async () => {
        const page = (await (await fetch(`http://127.0.0.1:${running.port}/api/instruments`)).json()) as InstrumentsPage;
        return page.instruments[0]?.status.detail;
      })
      .toContain('pseudo-terminal');
    expect(tablet.hellos).toHaveLength(1);
    expect(tablet.frames.every((frame) => frame.scales[0]?.gross === null)).toBe(true);
    await running.stop();
    await pty.close();
  });

  it('Setup binds and unbinds, and the command line is not overruled', async () => {
    const first = await start({ practice: false });
    await post(first, '/api/instruments/leave-practice', { leave: 'practice' });
    const bound = await post(first, '/api/instruments', scaleAt('/dev/serial/by-id/none'));
    expect(bound.instruments).toMatchObject([{ config: { id: 'scale-main' }, from: 'setup' }]);
    expect((await post(first, '/api/instruments/unbind', { id: 'scale-main' })).instruments).toEqual([]);
    await post(first, '/api/instruments', scaleAt('/dev/serial/by-id/none'));
    await first.stop();
    const second = await start({ practice: false });
    const page = (await (await fetch(`http://127.0.0.1:${second.port}/api/instruments`)).json()) as InstrumentsPage;
    expect(page.instruments).toHaveLength(1);
    await second.stop();
    const third = await start({ practice: false, instruments: [scaleAt('/dev/serial/by-id/other')] });
    const answer = await fetch(`http://127.0.0.1:${third.port}/api/instruments/unbind`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: '{"id":"scale-main"}',
    });
    expect(answer.status).toBe(409);
  });
});
