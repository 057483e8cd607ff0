import type { IncomingMessage, Server } from 'node:http';
import { networkInterfaces } from 'node:os';
import type { Duplex } from 'node:stream';
import type { HttpProblem } from '#lib/protocol/http';

/** Why a request is turned away, in words for the log, with what to do about it. */
export interface Refused {
  readonly why: 'host' | 'origin';
  readonly value: string;
  readonly fix: string;
}

export interface Gate {
  /** `null`: come in. */
  check(headers: { readonly host?: string | undefined; readonly origin?: string | undefined }): Refused | null;
}

const LOOPBACK_NAMES = ['localhost', '127.0.0.1', '[::1]'];

/** Whether a server that listens there hears this machine alone. */
export const isLoopbackHost = (host: string): boolean => host === '127.0.0.1' || host === 'localhost' || host === '::1';

/** Whether the name in an address means this machine whoever says it. */
export const namesThisMachine = (url: string): boolean => URL.canParse(url) && LOOPBACK_NAMES.includes(new URL(url).hostname);

/**
 * Who may speak to this server at all. A browser on any page of the web can reach loopback, and cross-origin rules do not guard
 * WebSockets; a foreign name may be pointed at this machine (DNS rebinding). So both the name asked for and the page that asks
 * must be ours. A program that sends no Origin (curl) is no web page and passes by its Host alone.
 */
export const createGate = (settings: { port: () => number; host: string; allowHosts: readonly string[] }): Gate => {
  const own = new Set([...LOOPBACK_NAMES, ...ownAddresses(settings.host)]);
  const named = new Set(settings.allowHosts.map((name) => name.toLowerCase()));

  // Our own addresses only with our own port: another program's page on this machine is a stranger too. A name the person allowed
  // may also stand for a proxy on the default port.
  const known = (url: URL): boolean =>
    portOf(url) === settings.port() ? own.has(url.hostname) || named.has(url.hostname) : url.port === '' && named.has(url.hostname);

  return {
    check({ host, origin }) {
      const asked = `http://${host ?? ''}`;
      if (host === undefined || !URL.canParse(asked) || !known(new URL(asked))) return refuse('host', host ?? '');
      if (origin === undefined) return null;
      if (!URL.canParse(origin)) return refuse('origin', origin);
      const page = new URL(origin);
      return (page.protocol === 'http:' || page.protocol === 'https:') && known(page) ? null : refuse('origin', origin);
    },
  };
};

/** A browser leaves the default port of a scheme out. */
const portOf = ({ port, protocol }: URL): number => (port === '' ? (protocol === 'https:' ? 443 : 80) : Number(port));

const refuse = (why: Refused['why'], value: string): Refused => {
  const url = why === 'host' ? `http://${value}` : value;
  const name = URL.canParse(url) ? new URL(url).hostname : '';
  const fix =
    name === '' || LOOPBACK_NAMES.includes(name)
      ? 'open the address printed at start'
      : `if that is a name of this machine, start with --allow-host ${name}`;
  return { why, value: value.slice(0, 200), fix };
};

/** Addresses a browser may name once the person asked us to listen beyond loopback. */
const ownAddresses = (host: string): readonly string[] => {
  if (isLoopbackHost(host)) return [];
  if (host !== '0.0.0.0' && host !== '::') return [bracketed(host)];
  return Object.values(networkInterfaces())
    .flatMap((list) => list ?? [])
    .map((address) => bracketed(address.address.split('%')[0] ?? ''));
};

const bracketed = (address: string): string => (address.includes(':') ? `[${address.toLowerCase()}]` : address.toLowerCase());

/**
 * Puts the gate in front of everything the server answers: pages, API, the socket's polling and upgrades alike. Call it last, when
 * every other listener is attached; those that come later stand outside the gate.
 */
export const guardServer = (server: Server, gate: Gate, onRefused: (refused: Refused) => void): void => {
  const requests = server.listeners('request');
  const upgrades = server.listeners('upgrade');
  server.removeAllListeners('request');
  server.removeAllListeners('upgrade');
  server.on('request', (request, response) => {
    const refused = gate.check(request.headers);
    if (refused === null) {
      for (const listener of requests) listener.call(server, request, response);
      return;
    }
    onRefused(refused);
    response.writeHead(403, { 'content-type': 'application/json', connection: 'close' });
    response.end(JSON.stringify(problemOf(refused)));
  });
  server.on('upgrade', (request: IncomingMessage, socket: Duplex, head: Buffer) => {
    const refused = gate.check(request.headers);
    if (refused === null) {
      for (const listener of upgrades) listener.call(server, request, socket, head);
      return;
    }
    onRefused(refused);
    const body = JSON.stringify(problemOf(refused));
    socket.on('error', () => {});
    socket.end(
      `HTTP/1.1 403 Forbidden\r\nConnection: close\r\nContent-Type: application/json\r\nContent-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`,
    );
  });
};

const problemOf = ({ why, fix }: Refused): HttpProblem => ({
  error: why === 'host' ? 'This name is not one of this bench.' : 'This page is not one of this bench.',
  kept: 'Nothing was changed.',
  todo: fix,
});
