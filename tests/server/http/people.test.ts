import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PASS_HEADER } from '#lib/protocol/people';
import type { HereAnswer, PeoplePage } from '#lib/protocol/people';
import type { BatchPage } from '#lib/protocol/http';
import type { RunningServer } from '#server/server';
import { optionsFor, screenAt, serverHere, tempFolder } from '#tests/support/server-rig';

describe('people', () => {
  let folder: ReturnType<typeof tempFolder>;
  let server: RunningServer;
  beforeAll(async () => {
    folder = tempFolder();
    server = await serverHere(optionsFor(folder.path));
  });
  afterAll(async () => {
    await server.stop();
    folder.remove();
  });
  const at = (path: string): string => `http://127.0.0.1:${server.port}/api/people${path}`;
  const post = async <T = PeoplePage>(path: string, body: unknown, headers: Record<string, string> = {}) => {
    const answer = await fetch(at(path), {
      method: 'POST',
      headers: { 'content-type': 'application/json', ...headers },
      body: JSON.stringify(body),
    });
    return { status: answer.status, body: (await answer.json()) as T };
  };
  const idOf = async (name: string): Promise<string> => {
    const { people } = (await (await fetch(at(''))).json()) as PeoplePage;
    return people.find((one) => one.name === name)?.id ?? '';
  };
  /** Adds somebody; returns their id. */
  const add = async (name: string): Promise<string> => {
    await post('', { name, role: 'maker' });
    return idOf(name);
  };
  const me = async (pass: string) => ((await (await fetch(at(''), { headers: { [PASS_HEADER]: pass } })).json()) as PeoplePage).me;
  const here = async (id: string, pin: string | null = null) => post<HereAnswer>(`/${id}/here`, { pin });

  it('adds, renames and erases; a name that is taken, empty or too long is refused in words', async () => {
    const ada = await add('Ada');
    expect((await post('', { name: ' ada ', role: 'maker' })).status).toBe(409);
    expect((await post('', { name: 'Ada', role: 'buyer' })).status).toBe(200);
    for (const name of ['', '   ', 'x'.repeat(61), 'a\u0000b', 7]) expect((await post('', { name, role: 'maker' })).status).toBe(400);
    expect((await post(`/${ada}/name`, { name: 'AB' })).body.people).toContainEqual({ id: ada, role: 'maker', name: 'AB', pin: false });
    expect((await post(`/${ada}/erase`, { erase: 'name' })).body.people).toContainEqual({ id: ada, role: 'maker', name: null, pin: false });
    // Who is erased is nobody any more.
    expect((await here(ada)).status).toBe(404);
    expect((await post(`/${ada}/name`, { name: 'Ada' })).status).toBe(404);
    expect((await post('', { name: 'X', role: 'maker' }, { 'x-forwarded-for': '192.0.2.7' })).status).toBe(403);
  });

  it('asks for the PIN of who has one, and after five wrong ones for patience', async () => {
    const imke = await add('Imke');
    expect((await post(`/${imke}/pin`, { pin: '12', now: null })).status).toBe(400);
    expect((await post(`/${imke}/pin`, { pin: '4711', now: null })).body.people).toContainEqual({
      id: imke,
      role: 'maker',
      name: 'Imke',
      pin: true,
    });
    expect((await here(imke)).status).toBe(403);
    const { pass } = (await here(imke, '4711')).body;
    expect(await me(pass)).toBe(imke);
    // Neither the bare id nor a forged mark passes for somebody with a PIN.
    expect(await me(imke)).toBeNull();
    expect(await me(`${imke}.${'A'.repeat(43)}`)).toBeNull();
    expect(await me(`${imke}.${'\u00e9'.repeat(43)}`)).toBeNull();
    expect((await post(`/${imke}/pin`, { pin: '0815', now: '1111' })).status).toBe(403);
    for (const wrong of ['1', '2', '3']) expect((await here(imke, wrong)).status).toBe(403);
    expect((await here(imke, '4')).status).toBe(429);
    const right = await here(imke, '4711');
    expect(right.status).toBe(429);
    expect(right.body).toMatchObject({ error: expect.stringContaining('too often'), todo: expect.stringMatching(/Wait \d+ seconds/) });
    // A forgotten one is mended at the bench machine itself; passes given for it end.
    expect((await post(`/${imke}/pin`, { pin: null, now: null })).status).toBe(200);
    expect((await post(`/${imke}/pin`, { pin: '2222', now: null })).status).toBe(200);
    expect(await me(pass)).toBeNull();
  });

  it('puts the id of who acts into each entry, and the name beside them', async () => {
    const ravi = await add('Ravi');
    const { pass } = (await here(ravi)).body;
    const screen = screenAt(server.port);
    await screen.greeted();
    await screen.lease('take');
    expect(await screen.intent({ kind: 'start', plan: 'alder-and-oat', lots: {} }, { person: pass })).toMatchObject({ ok: true });
    expect(await screen.intent({ kind: 'note', text: 'nobody said who' }, {})).toMatchObject({ ok: true });
    const id = screen.batch()?.id ?? '';
    const review = (await (await fetch(`http://127.0.0.1:${server.port}/api/batches/${id}`)).json()) as BatchPage;
    expect(review.startedBy).toBe(ravi);
    expect(review.people[ravi]).toBe('Ravi');
    expect(review.story.find(({ code }) => code === 'noted')?.by).toBe('maker');
    screen.close();
  });
});
