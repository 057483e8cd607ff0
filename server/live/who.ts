import { createHash, randomBytes } from 'node:crypto';
import type { IncomingHttpHeaders } from 'node:http';
import * as z from 'zod/mini';
import { as } from '#lib/units/id';
import type { ScreenId } from '#lib/units/id';
import type { ScreenAuth } from '#lib/protocol/lanes';

const auth = z.object({
  screen: z.optional(z.string().check(z.regex(/^[A-Za-z0-9_-]{16,64}$/))),
  token: z.optional(z.string().check(z.maxLength(120))),
});

/** What a connecting screen says of itself; anything malformed counts as nothing said. */
export const readAuth = (given: unknown): ScreenAuth => {
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

/** On this machine, and not through a proxy on it: a forwarded request comes from wherever the proxy lets in. */
export const isHere = (address: string | undefined, headers: IncomingHttpHeaders): boolean => {
  if (headers['x-forwarded-for'] !== undefined || headers.forwarded !== undefined || headers['x-real-ip'] !== undefined) return false;
  const plain = address?.replace(/^::ffff:/, '') ?? '';
  return plain === '::1' || /^127\.\d+\.\d+\.\d+$/.test(plain);
};

export const bearerOf = (headers: IncomingHttpHeaders): string | null =>
  /^Bearer (\S{1,120})$/.exec(headers.authorization ?? '')?.[1] ?? null;
