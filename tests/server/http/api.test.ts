import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BatchList, Health, InstrumentsPage, PlanList, RawFrames } from '#lib/protocol/http';
import type { BatchReview } from '#lib/work/batch/review';
import type { RunningServer } from '#server/server';
import { optionsFor, screenAt, serverHere, tempFolder } from '#tests/support/server-rig';

describe('the API', () => {
  let folder: ReturnType<typeof tempFolder>;
  let server: RunningServer;
  beforeAll(async () => {
    folder = tempFolder();
    server = await serverHere(optionsFor(folder.path, { practice: false, host: '0.0.0.0' }));
  });
  afterAll(async () => {
    await server.stop();
    folder.remove();
  });
  const at = (path: string): string => `http://127.0.0.1:${server.port}${path}`;
  const get = async <T>(path: string): Promise<T> => (await fetch(at(path))).json() as Promise<T>;
  const post = (path: string, body: unknown, headers: Record<string, string> = {}) =>
    fetch(at(path), {
      method: 'POST',
      headers: { 'content-type': 'application/json', ...headers },
      body: typeof body === 'string' ? body : JSON.stringify(body),
    });
  const PROBLEM = { error: expect.any(String), kept: expect.any(String), todo: expect.any(String) };

  it('says how it is', async () => {
    expect(await get<Health>('/api/health')).toMatchObject({
      ok: true,
      realm: 'practice',
      bench: 'bench',
      journal: { ok: true, seq: 0, readOnly: null },
      instruments: { length: 5 },
    });
  });

  it('lists plans with their lots, batches newest first, and one batch for reading', async () => {
    const { plans } = await get<PlanList>('/api/plans');
    expect(plans.map((plan) => plan.id)).toContain('alder-and-oat');
    expect(await get<BatchList>('/api/batches')).toEqual({ batches: [], next: null });
    const screen = screenAt(server.port);
    await screen.greeted();
    await screen.lease('take');
    const lots = { coconut: { id: 'lot-coconut-07', mark: 'what a lot is called is not the screen’s to say' } };
    expect(await screen.intent({ kind: 'start', plan: 'alder-and-oat', lots })).toMatchObject({ ok: true });
    expect(screen.batch()?.lines['coconut' as never]).toMatchObject({ plan: { lot: { mark: 'CO 26-07' } } });
    const { batches } = await get<BatchList>('/api/batches?limit=1');
    expect(batches).toMatchObject([{ id: screen.batch()?.id, mark: screen.batch()?.mark, status: 'weighing', realm: 'practice' }]);
    expect(batches[0]?.mark).toMatch(/^\d\d-1$/);
    expect((await get<BatchList>('/api/batches?status=weighing')).batches).toEqual(batches);
    expect(await get<BatchList>('/api/batches?status=parked')).toEqual({ batches: [], next: null });
    const review = await get<BatchReview>(`/api/batches/${batches[0]?.id}`);
    expect(review).toMatchObject({ summary: batches[0], lines: { length: 9 } });
    expect(review.story.map((event) => event.code)).toContain('scale-never-checked');
    expect(await screen.intent({ kind: 'start', plan: 'alder-and-oat', lots })).toMatchObject({
      ok: false,
      refusal: { code: 'another-batch' },
    });
    expect(await screen.intent({ kind: 'start', plan: 'alder-and-oat', lots: { coconut: { id: 'no such lot', mark: '' } } })).toMatchObject(
      { ok: false },
    );
    screen.close();
  });

  it('shows instruments and the bytes they send', async () => {
    const { instruments, leavePractice } = await get<InstrumentsPage>('/api/instruments');
    expect(instruments.map((one) => one.from)).toEqual(Array.from({ length: 5 }, () => 'practice'));
    expect(leavePractice).toBe(true);
    await expect.poll(async () => (await get<RawFrames>('/api/instruments/practice-main/raw')).frames.length).toBeGreaterThan(3);
    const { frames } = await get<RawFrames>('/api/instruments/practice-main/raw');
    expect(frames[0]).toMatchObject({
      hex: expect.stringMatching(/^([0-9a-f]{2} )+[0-9a-f]{2}$/),
      text: expect.stringMatching(/^(ST|US),/),
    });
  });

  it('draws the code for a tablet, for a screen on this machine only', async () => {
    const drawn = await fetch(at('/api/qr'));
    expect(drawn.headers.get('content-type')).toBe('image/svg+xml');
    expect(await drawn.text()).toContain('<svg');
    const elsewhere = await fetch(at('/api/qr'), { headers: { 'x-forwarded-for': '192.0.2.7' } });
    expect(elsewhere.status).toBe(403);
    expect(await elsewhere.json()).toEqual(PROBLEM);
  });

  it('takes no request that does not say how large it is', async () => {
    const body = new ReadableStream({ start: (sink) => (sink.enqueue(new TextEncoder().encode('{}')), sink.close()) });
    const how = { method: 'POST', headers: { 'content-type': 'application/json' }, body, duplex: 'half' } as RequestInit;
    const answer = await fetch(at('/api/instruments'), how);
    expect(answer.status).toBe(411);
    expect(await answer.json()).toEqual(PROBLEM);
  });

  it('answers every failure in words: what happened, what was kept, what to do', async () => {
    const scale = {
      kind: 'scale',
      id: 'scale-main',
      role: 'main',
      name: 'big scale',
      path: '/dev/none',
      shape: null,
      capacity: null,
      division: null,
    };
    const good = { ...scale, serial: { baudRate: 9600, frame: '8N1' } };
    // Bound once, it has its port and its place: no other instrument gets either, and it may be changed itself.
    for (const name of ['big scale', 'the old one']) expect((await post('/api/instruments', { ...good, name })).status).toBe(200);
    const failures: readonly [Promise<Response>, number][] = [
      [post('/api/instruments', { ...good, id: 'scale-fine', role: 'fine' }), 409],
      [post('/api/instruments', { ...good, id: 'scale-main-2', path: '/dev/other' }), 409],
      [post('/api/instruments', { ...good, id: 'scale-fine', role: 'fine', path: '/dev/../dev/none' }), 409],
      [post('/api/instruments', { ...good, capacity: 100_000, division: 100_000 }), 400],
      [fetch(at('/api/nothing')), 404],
      [fetch(at('/api/batches/none')), 404],
      [fetch(at('/api/batches?limit=0')), 400],
      [fetch(at('/api/batches?limit=many')), 400],
      [fetch(at('/api/batches?status=resting')), 400],
      [fetch(at('/api/instruments/none/raw')), 404],
      [post('/api/instruments', '{'), 400],
      [post('/api/instruments', { ...good, path: 'ttyUSB0' }), 400],
      [post('/api/instruments', { ...good, serial: { baudRate: 1e9, frame: '9N9' } }), 400],
      [post('/api/instruments', good, { 'x-forwarded-for': '192.0.2.7' }), 403],
      [post('/api/instruments', good, { 'x-forwarded-for': '192.0.2.7', authorization: 'Bearer forged' }), 403],
      [post('/api/instruments/unbind', { id: 'none' }), 404],
      [post('/api/instruments/leave-practice', {}), 400],
      [post('/api/instruments', 'x'.repeat(100_000)), 413],
      [fetch(at('/api/health'), { method: 'DELETE' }), 404],
    ];
    for (const [asked, status] of failures) {
      const answer = await asked;
      expect(answer.status, answer.url).toBe(status);
      expect(await answer.json(), answer.url).toEqual(PROBLEM);
      expect(answer.headers.get('x-content-type-options')).toBe('nosniff');
    }
  });
});
