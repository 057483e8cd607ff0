import { createServer } from 'node:http';
import type { IncomingMessage, Server, ServerResponse } from 'node:http';
import { createServer as createNetServer } from 'node:net';
import type { AddressInfo, Server as NetServer, Socket } from 'node:net';
import type { Duplex } from 'node:stream';
import { getRequestListener } from '@hono/node-server';
import type { HttpBindings } from '@hono/node-server';
import type { Context } from 'hono';
import type { Bench } from '#lib/bench/pipeline/types';
import { createApp } from './http/app';
import type { ApiDeps } from './http/deps';
import { createGate, guardServer } from './http/gate';
import type { Refused } from './http/gate';
import type { Pages } from './http/static';
import { createHub } from './live/hub';
import type { Hub } from './live/hub';
import type { Pairing } from './live/pairing';
import { bearerOf, isHere } from './live/who';
import type { PersonId } from '#lib/units/id';
import type { Log } from './log';
import type { Options } from './options';
import { personOf } from './people/who';

const LOOPBACK = '127.0.0.1';
const EVERYWHERE: ReadonlySet<string> = new Set(['0.0.0.0', '::']);

/** Next's development handler, which answers everything that is not ours. */
export interface DevPages {
  handle(request: IncomingMessage, response: ServerResponse): Promise<void>;
  upgrade(request: IncomingMessage, socket: Duplex, head: Buffer): Promise<void>;
}

export interface ServeParts {
  readonly options: Pick<Options, 'port' | 'host' | 'allowHosts'>;
  readonly api: Omit<ApiDeps, 'isHere' | 'isMaker' | 'tabletAddress'>;
  readonly pages: Pages;
  readonly dev: DevPages | null;
  readonly bench: Bench;
  readonly pairing: Pairing;
  /** The host name or address a tablet would use; `null`: nothing beyond this machine may come. */
  readonly tabletHost: string | null;
  readonly log: Log;
}

export interface Serving {
  readonly port: number;
  readonly hub: Hub;
  /** Address with the one-time code good now. */
  tabletAddress(): string | null;
  close(): Promise<void>;
}

/** One way in: pages, API and sockets on one port, behind one gate. Rejects when the port cannot be had. */
export const serve = async (parts: ServeParts): Promise<Serving> => {
  const { options, pairing, log } = parts;
  let port = options.port;
  const tabletAddress = (): string | null =>
    parts.tabletHost === null ? null : `http://${parts.tabletHost}:${port}/?code=${encodeURIComponent(pairing.code())}`;

  const app = createApp(
    {
      ...parts.api,
      tabletAddress,
      isHere: here,
      isMaker: (c) => here(c) || pairing.knows(bearerOf((c.env as HttpBindings).incoming.headers)),
    },
    parts.pages,
  );
  const ours = getRequestListener(app.fetch, { overrideGlobalObjects: false });
  const { dev } = parts;
  const server = createServer((request, response) => {
    const answered = dev === null || request.url?.startsWith('/api/') === true ? ours(request, response) : dev.handle(request, response);
    answered.catch((error: unknown) => log.error({ err: error }, 'a request could not be answered'));
  });
  const sockets = keepSockets(server);
  const whoIs = (pass: string | undefined): PersonId => personOf(parts.api.people(), pass);
  const hub = createHub({ http: server, bench: parts.bench, build: parts.api.build, pairing, whoIs, log });
  server.on('upgrade', (request, socket, head) => {
    if (request.url?.startsWith('/socket.io/') === true) return;
    if (dev === null) socket.destroy();
    else dev.upgrade(request, socket, head).catch(() => socket.destroy());
  });
  const refusals = logRefusals(log);
  guardServer(server, createGate({ port: () => port, host: options.host, allowHosts: options.allowHosts }), refusals);

  await listening(server, options.port, EVERYWHERE.has(options.host) ? options.host : LOOPBACK);
  port = (server.address() as AddressInfo).port;
  const second = await alsoOn(server, port, options.host);
  return {
    port,
    hub,
    tabletAddress,
    async close() {
      second?.close();
      const gone = hub.close();
      server.closeAllConnections();
      // A peer that does not answer the closing handshake is not waited for.
      const cut = setTimeout(() => {
        for (const socket of sockets) socket.destroy();
      }, 300);
      await gone;
      clearTimeout(cut);
    },
  };
};

const here = (c: Context): boolean => {
  const { incoming } = c.env as HttpBindings;
  return isHere(incoming.socket.remoteAddress, incoming.headers);
};

const listening = (server: Server | NetServer, port: number, host: string): Promise<void> =>
  new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, host, () => {
      server.off('error', reject);
      resolve();
    });
  });

/** Loopback is always there; one more address gets a listener of its own that hands its connections to the same server. */
const alsoOn = async (server: Server, port: number, host: string): Promise<NetServer | null> => {
  if (EVERYWHERE.has(host) || host === LOOPBACK || host === 'localhost') return null;
  const second = createNetServer((socket) => void server.emit('connection', socket));
  await listening(second, port, host);
  return second;
};

const keepSockets = (server: Server): ReadonlySet<Socket> => {
  const sockets = new Set<Socket>();
  server.on('connection', (socket: Socket) => {
    sockets.add(socket);
    socket.on('close', () => sockets.delete(socket));
  });
  return sockets;
};

const SAID_AT_MOST = 50;

/** Each stranger once, with what to do if it is none: a page that tries for ever would fill the log. */
const logRefusals = (log: Log): ((refused: Refused) => void) => {
  const said = new Set<string>();
  return ({ why, value, fix }) => {
    const key = `${why} ${value}`;
    if (said.has(key) || said.size >= SAID_AT_MOST) return;
    said.add(key);
    log.warn({ [why]: value, fix }, `refused a foreign ${why}`);
  };
};
