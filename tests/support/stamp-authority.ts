import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { tool, toolWell } from './tools';

/** A throw-away time-stamping authority of our own on loopback, made and run with openssl. */
export interface StampAuthority {
  readonly url: string;
  /** What it does with the next requests instead of answering them. */
  answer(how: 'well' | 'never' | 'with an error' | 'with nonsense' | 'about something else'): void;
  /** Resolves when it was asked next. */
  asked(): Promise<void>;
  /** What openssl says of an answer about some bytes: `Verification: OK`, or why not. */
  verify(token: Uint8Array, about: string | Uint8Array): string;
  close(): Promise<void>;
}

const CONFIG = `[ tsa ]
default_tsa = it
[ it ]
dir = .
serial = ./serial
signer_cert = ./tsa.pem
signer_key = ./tsa.key
certs = ./ca.pem
default_policy = 1.2.3.4.1
digests = sha256
signer_digest = sha256
accuracy = secs:1
ordering = no
tsa_name = no
ess_cert_id_chain = no
ess_cert_id_alg = sha256
`;

export const stampAuthority = async (): Promise<StampAuthority> => {
  const dir = mkdtempSync(join(tmpdir(), 'authority-'));
  const openssl = (...args: readonly string[]): string => toolWell('openssl', args, { cwd: dir });
  writeFileSync(join(dir, 'tsa.cnf'), CONFIG);
  writeFileSync(join(dir, 'serial'), '01\n');
  writeFileSync(join(dir, 'use.cnf'), 'extendedKeyUsage = critical,timeStamping\n');
  const curve = ['-newkey', 'ec', '-pkeyopt', 'ec_paramgen_curve:P-256', '-nodes'];
  openssl('req', '-x509', ...curve, '-keyout', 'ca.key', '-out', 'ca.pem', '-subj', '/CN=Throw-away root', '-days', '2');
  openssl('req', ...curve, '-keyout', 'tsa.key', '-out', 'tsa.csr', '-subj', '/CN=Throw-away authority');
  const signing = ['-req', '-in', 'tsa.csr', '-CA', 'ca.pem', '-CAkey', 'ca.key', '-CAcreateserial', '-days', '2'];
  openssl('x509', ...signing, '-extfile', 'use.cnf', '-out', 'tsa.pem');
  let how: Parameters<StampAuthority['answer']>[0] = 'well';
  let first: Buffer | null = null;
  let heard: (() => void) | null = null;
  const server = createServer((request, response) => {
    const chunks: Buffer[] = [];
    request.on('data', (chunk: Buffer) => chunks.push(chunk));
    request.on('end', () => {
      if (request.headers['content-type'] !== 'application/timestamp-query') return void response.writeHead(415).end();
      heard?.();
      if (how === 'never') return undefined;
      if (how === 'with an error') return void response.writeHead(503).end();
      if (how === 'with nonsense') return void response.end('nonsense');
      writeFileSync(join(dir, 'query'), Buffer.concat(chunks));
      openssl('ts', '-reply', '-config', 'tsa.cnf', '-queryfile', 'query', '-out', 'answer');
      const answer = readFileSync(join(dir, 'answer'));
      first ??= answer;
      return void response.writeHead(200, { 'content-type': 'application/timestamp-reply' }).end(how === 'well' ? answer : first);
    });
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    answer: (next) => void (how = next),
    asked: () => new Promise((resolve) => (heard = resolve)),
    verify(token, about) {
      writeFileSync(join(dir, 'token'), token);
      writeFileSync(join(dir, 'about'), about);
      return tool('openssl', ['ts', '-verify', '-in', 'token', '-data', 'about', '-CAfile', 'ca.pem', '-untrusted', 'tsa.pem'], {
        cwd: dir,
      }).out;
    },
    async close() {
      await new Promise((resolve) => server.close(resolve));
      rmSync(dir, { recursive: true, force: true });
    },
  };
};
