import { createHash, randomBytes } from 'node:crypto';
import type { IncomingHttpHeaders } from 'node:http';
import * as z from 'zod/mini';
import { as } from '#lib/units/id';
import type { ScreenId } from '#lib/units/id';
import type { ScreenAuth } from '#lib/protocol/lanes';
import { namesThisMachine } from '../http/gate';
import type { Pairing } from './pairing';

const auth = z.object({
  screen: z.optional(z.string().check(z.regex(/^[A-Za-z0-9_-]{16,64}$/))),
  token: z.optional(z.string().check(z.maxLength(120))),
});

/** What a connecting screen says of itself; anything malformed counts as nothing said. */
const readAuth = (given: unknown): ScreenAuth => {
  const read = auth.safeParse(given);
  if (!read.success) return {};
  const { screen, token } = read.data;
  return { ...(screen === undefined ? {} : { screen }), ...(token === undefined ? {} : { token }) };
};

/**
 * The screen's public name, which other screens see as the holder of the lease: a hash of the secret only its own page knows, so that
 * nobody can pass for it.
 */
export const screenIdOf = (secret: string | undefined): ScreenId =>
  as(
    createHash('sha256')
      .update(secret ?? randomBytes(24))
      .digest('base64url')
      .slice(0, 16),
  );

/** Headers by which a proxy says that it asks for somebody else; every `x-forwarded-…` besides. */
const PROXIES: ReadonlySet<string> = new Set(['forwarded', 'via', 'x-real-ip']);
const isProxys = (header: string): boolean => PROXIES.has(header) || header.startsWith('x-forwarded-');

/**
 * On this machine, and not through a proxy on it: what is forwarded comes from wherever the proxy lets in. A proxy need not say that it is one,
 * so the name asked for must be one that only this machine has, and so must the page's that asks.
 */
export const isHere = (address: string | undefined, headers: IncomingHttpHeaders): boolean => {
  const plain = address?.replace(/^::ffff:/, '') ?? '';
  if (plain !== '::1' && !/^127\.\d+\.\d+\.\d+$/.test(plain)) return false;
  if (Object.keys(headers).some(isProxys)) return false;
  const { host = '', origin, referer } = headers;
  return [`http://${host}`, origin, referer].every((url) => url === undefined || namesThisMachine(url));
};

/** Where a screen stands: at the machine itself, opened with the one-time code, or anywhere. */
export type Place = 'here' | 'paired' | 'elsewhere';

/** A screen that asks to be let in. */
export interface Caller {
  readonly id: ScreenId;
  readonly place: Place;
}

export const callerOf = (
  { auth: given, address, headers }: { readonly auth: unknown; readonly address: string; readonly headers: IncomingHttpHeaders },
  { knows }: Pick<Pairing, 'knows'>,
): Caller => {
  const { screen, token } = readAuth(given);
  return { id: screenIdOf(screen), place: isHere(address, headers) ? 'here' : knows(token ?? null) ? 'paired' : 'elsewhere' };
};

export const bearerOf = (headers: IncomingHttpHeaders): string | null =>
  /^Bearer (\S{1,120})$/.exec(headers.authorization ?? '')?.[1] ?? null;
