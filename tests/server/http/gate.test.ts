import { createServer } from 'node:http';
import type { Server } from 'node:http';
import { connect } from 'node:net';
import type { AddressInfo } from 'node:net';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { createGate, guardServer } from '#server/http/gate';
import type { Refused } from '#server/http/gate';

describe('A13: the gate', () => {
  const gate = createGate({ port: () => 4173, host: '127.0.0.1', allowHosts: ['Bench.Test'] });
  const why = (host: string | undefined, origin?: string) => gate.check({ host, origin })?.why ?? 'in';

  it.each([
    ['localhost:4173', undefined],
    ['127.0.0.1:4173', 'http://127.0.0.1:4173'],
    ['[::1]:4173', 'http://[::1]:4173'],
    ['bench.test:4173', 'http://bench.test:4173'],
    ['BENCH.TEST:4173', 'http://bench.test:4173'],
    ['bench.test', 'https://bench.test'],
  ])('lets in %s asked by %s', (host, origin) => {
    expect(why(host, origin)).toBe('in');
  });

  it.each([
    [undefined, undefined, 'host'],
    ['', undefined, 'host'],
    ['evil.example:4173', undefined, 'host'],
    ['localhost.evil.example:4173', undefined, 'host'],
    ['localhost:80', undefined, 'host'],
    ['localhost', undefined, 'host'],
    ['192.168.1.5:4173', undefined, 'host'],
    ['localhost:4173@evil.example', undefined, 'host'],
    ['localhost:4173 evil', undefined, 'host'],
    ['localhost:4173', 'http://evil.example', 'origin'],
    ['localhost:4173', 'http://localhost:3000', 'origin'],
    ['localhost:4173', 'http://localhost', 'origin'],
    ['localhost:4173', 'null', 'origin'],
    ['localhost:4173', '', 'origin'],
    ['localhost:4173', 'file://', 'origin'],
    ['localhost:4173', 'http://localhost:4173.evil.example', 'origin'],
    ['bench.test:4173', 'http://bench.test:9999', 'origin'],
  ])('turns away %j asked by %j: %s', (host, origin, expected) => {
    expect(why(host, origin)).toBe(expected);
  });

  it('knows the default port that a browser leaves out', () => {
    const plain = createGate({ port: () => 80, host: '127.0.0.1', allowHosts: ['bench.test'] });
    for (const name of ['localhost', 'localhost:80', 'bench.test'])
      expect(plain.check({ host: name, origin: `http://${name}` })).toBeNull();
    for (const name of ['evil.example', 'localhost:4173']) expect(plain.check({ host: name })?.why).toBe('host');
    expect(plain.check({ host: 'localhost', origin: 'https://localhost' })?.why).toBe('origin');
  });

  it('says the fix for a name that may be ours, and none for what can never be', () => {
    expect(gate.check({ host: 'localhost:4173', origin: 'http://tablet.lan:4173' })?.fix).toContain('--allow-host tablet.lan');
    expect(gate.check({ host: 'localhost:4173', origin: 'null' })?.fix).not.toContain('--allow-host');
  });

  it('knows its own addresses once it listens beyond this machine', () => {
    const wide = createGate({ port: () => 4173, host: '192.168.1.5', allowHosts: [] });
    expect(wide.check({ host: '192.168.1.5:4173' })).toBeNull();
    expect(wide.check({ host: '192.168.1.6:4173' })?.why).toBe('host');
  });
});

describe('A13: nothing stands outside the gate', () => {
  let server: Server;
  let port: number;
  let refused: Refused[];
  let reached: number;
  beforeEach(async () => {
    refused = [];
    reached = 0;
    server = createServer((_request, response) => {
      reached += 1;
      response.end('in');
    });
    server.on('upgrade', (_request, socket) => {
      reached += 1;
      socket.end('HTTP/1.1 101 Switching Protocols\r\n\r\n');
    });
    guardServer(server, createGate({ port: () => port, host: '127.0.0.1', allowHosts: [] }), (r) => refused.push(r));
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    port = (server.address() as AddressInfo).port;
  });
  afterEach(() => void server.close());

  /** Sends bytes as written and returns everything that came back. */
  const talk = (text: string): Promise<string> =>
    new Promise((resolve, reject) => {
      let got = '';
      const socket = connect(port, '127.0.0.1', () => socket.end(text));
      socket.setEncoding('utf8').on('data', (part: string) => (got += part));
      socket.on('close', () => resolve(got)).on('error', reject);
    });
  const get = (host: string, more = '') => talk(`GET / HTTP/1.1\r\nHost: ${host}\r\nConnection: close\r\n${more}\r\n`);

  it('answers what is ours', async () => {
    expect(await get(`127.0.0.1:${port}`)).toContain('200 OK');
    expect(await get(`127.0.0.1:${port}`, 'Upgrade: websocket\r\nConnection: upgrade\r\n')).toBeTruthy();
    expect(reached).toBe(2);
  });

  it('answers 403 to an evil name and to an evil page, plain and on upgrade, and logs each', async () => {
    const upgrade = 'Connection: upgrade\r\nUpgrade: websocket\r\n';
    const answers = [
      await get('evil.example'),
      await get(`127.0.0.1:${port}`, 'Origin: http://evil.example\r\n'),
      await talk(`GET / HTTP/1.1\r\nHost: evil.example\r\n${upgrade}\r\n`),
      await talk(`GET / HTTP/1.1\r\nHost: 127.0.0.1:${port}\r\nOrigin: null\r\n${upgrade}\r\n`),
    ];
    for (const answer of answers) expect(answer).toMatch(/^HTTP\/1\.1 403 /);
    expect(reached).toBe(0);
    expect(refused.map((r) => r.why)).toEqual(['host', 'origin', 'host', 'origin']);
  });
});
