import { createServer } from 'node:http';
import { resolve } from 'node:path';
import { Server } from 'socket.io';
import { getRequestListener } from '@hono/node-server';
import type { IntentAnswer } from '#lib/protocol/intent';
import { PROTOCOL_VERSION } from '#lib/protocol/lanes';
import type { Hello, ScreenToServer, ServerToScreen } from '#lib/protocol/lanes';
import type { LiveFrame } from '#lib/protocol/live';
import { SAMPLE_PLANS } from '#lib/work/formula/sample';
import { loadPages } from '#server/http/static';
import { SCENES } from './fixtures';
import type { Scene, SceneName } from './fixtures';
import { PAPER } from './paper-scenes';
import type { PaperName, PaperScene } from './paper-scenes';

/**
 * A stage for the exported pages: serves them as the product does and plays one scene at a time over the same lanes, in a process of its
 * own, so that a test can freeze or kill it. It decides nothing and keeps nothing; it counts what it is sent.
 */
export type StageOrder =
  | { readonly do: 'play'; readonly scene: SceneName }
  /** A state of the whole workshop, with what the pages on paper are answered. */
  | { readonly do: 'paper'; readonly paper: PaperName }
  /** Changes the cue of the running scene. */
  | { readonly do: 'cue'; readonly cue: Partial<LiveFrame['cue']> }
  | { readonly do: 'frames'; readonly everyMs: number | null }
  /** Many frames at once. */
  | { readonly do: 'rush'; readonly count: number; readonly last: number }
  | { readonly do: 'drop' }
  | { readonly do: 'refuse'; readonly code: Extract<IntentAnswer, { ok: false }>['refusal']['code'] | null };

export type StageWord =
  | { readonly say: 'open'; readonly port: number }
  | { readonly say: 'done'; readonly order: StageOrder['do'] }
  | { readonly say: 'heard'; readonly event: string; readonly message: unknown };

const BOOT = process.env['STAGE_BOOT'] ?? 'boot-1';
const pages = loadPages(resolve('out'));
let scene: Scene = SCENES.idle();
let paper: PaperScene | null = null;
let n = 0;
let frames: ReturnType<typeof setInterval> | null = null;
let refusal: Extract<StageOrder, { do: 'refuse' }>['code'] = null;

const api = ({ pathname: path, searchParams }: URL): Response | Promise<Response> | null => {
  const said = paper?.answer(path, searchParams) ?? null;
  if (said === 'never') return new Promise(() => undefined);
  if (said !== null && 'drawing' in said) return new Response(said.drawing, { headers: { 'content-type': 'image/svg+xml' } });
  if (said !== null) return Response.json(said.body, { status: said.status ?? 200 });
  // As the server: what is invented is offered nowhere but in practice and test.
  if (path === '/api/plans') return Response.json({ plans: scene.realm === 'real' ? [] : SAMPLE_PLANS });
  if (path === '/api/batches') return Response.json({ batches: [], next: null });
  return null;
};
const answer = getRequestListener((request) => api(new URL(request.url)) ?? pages.respond(request), {
  overrideGlobalObjects: false,
});
const http = createServer((request, response) => void answer(request, response));
const io = new Server<ScreenToServer, ServerToScreen>(http, {
  transports: ['websocket'],
  serveClient: false,
  pingInterval: 2_000,
  pingTimeout: 3_000,
});

const now = (): number => performance.now();
const frameNow = (): LiveFrame => {
  n += 1;
  return { boot: BOOT, n, merged: 0, at: now(), ...scene.frame };
};
const helloNow = (): Hello => ({
  boot: BOOT,
  protocol: PROTOCOL_VERSION,
  build: 'stage',
  bench: 'bench 1',
  realm: scene.realm,
  role: scene.role,
  screen: 'me',
  lease: scene.lease,
  batch: {
    batch: scene.entries[0]?.batch ?? null,
    from: 0,
    seq: scene.entries.length,
    lines: scene.entries.map((entry) => JSON.stringify(entry)),
  },
  live: frameNow(),
  forecast: scene.forecast?.(now()) ?? null,
  at: now(),
});

const tell = (word: StageWord): void => void process.send?.(word);
const heard = (event: string, message: unknown): void => tell({ say: 'heard', event, message });

io.on('connection', (socket) => {
  socket.emit('hello', helloNow());
  socket.on('intent', (message, ack) => {
    heard('intent', message);
    ack(
      refusal === null
        ? { ok: true, seq: scene.entries.length, version: null, repeated: false }
        : { ok: false, refusal: { code: refusal, params: {} } },
    );
  });
  socket.on('resume', (_ask, ack) => ack(helloNow().batch));
  socket.on('lease', (message, ack) => {
    heard('lease', message);
    scene = { ...scene, lease: { holder: 'me', mine: true, label: 'screen 10:42', lostForMs: null } };
    ack(scene.lease);
  });
  socket.on('pair', (_ask, ack) => ack({ ok: false, waitMs: 0 }));
  socket.on('scene', (message, ack) => {
    heard('scene', message);
    ack({ ok: true, why: null });
  });
});

setInterval(() => io.emit('beat', { boot: BOOT, n, at: now(), ages: {} }), 1_000);

const play = (every: number | null): void => {
  if (frames !== null) clearInterval(frames);
  frames = every === null ? null : setInterval(() => io.emit('live', frameNow()), every);
};

/** A pour that never ends, as live frames; the last of them shows exactly `last` in, so that a page can be seen to have drawn it. */
const rush = (count: number, last: number): void => {
  const { cue } = scene.frame;
  const target = cue.target ?? 400_000;
  for (let made = 0; made < count; made += 1) {
    const total = made === count - 1 ? last : Math.round(((made * 137) % target) / 100) * 100;
    const changed = { ...cue, total, poured: total, left: target - total } as LiveFrame['cue'];
    io.emit('live', { ...frameNow(), cue: changed });
  }
};

const obey = (order: StageOrder): void => {
  if (order.do === 'paper') {
    paper = PAPER[order.paper]();
    scene = paper.bench;
    io.emit('hello', helloNow());
  } else if (order.do === 'play') {
    scene = SCENES[order.scene]();
    io.emit('hello', helloNow());
  } else if (order.do === 'cue') {
    scene = { ...scene, frame: { ...scene.frame, cue: { ...scene.frame.cue, ...order.cue } } };
    io.emit('live', frameNow());
  } else if (order.do === 'frames') play(order.everyMs);
  else if (order.do === 'rush') rush(order.count, order.last);
  else if (order.do === 'drop') io.disconnectSockets(true);
  else refusal = order.code;
  tell({ say: 'done', order: order.do });
};

process.on('message', obey);
process.on('disconnect', () => process.exit(0));
http.listen(Number(process.env['STAGE_PORT'] ?? 0), '127.0.0.1', () => {
  const address = http.address();
  tell({ say: 'open', port: typeof address === 'object' && address !== null ? address.port : 0 });
  if (process.send === undefined) console.log(address);
});
