import { createHmac, randomBytes, randomInt, timingSafeEqual } from 'node:crypto';
import { closeSync, fsyncSync, openSync, readFileSync, renameSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import type { Clock } from '#lib/units/time';
import { createTries } from '../tries';

/** Letters and digits nobody takes for one another. */
const ALPHABET = '23456789ABCDEFGHJKMNPQRSTVWXYZ';
const CODE_LENGTH = 8;
const TOKEN_DAYS = 90;

export interface Pairing {
  /** The code now good for one screen. */
  code(): string;
  /** Exchanges the code for a token, once; afterwards there is another code. Wrong codes make everyone wait, longer each time. */
  redeem(code: string): { readonly ok: true; readonly token: string } | { readonly ok: false; readonly waitMs: number };
  /** Whether a screen elsewhere was opened with a code before. */
  knows(token: string | null): boolean;
}

/**
 * Lets a screen elsewhere hold the bench: it shows the one-time code and gets a token, signed with a key of this data directory, so that
 * a tablet stays paired when the server is killed mid-pour. Deleting the key unpairs every screen.
 */
export const createPairing = (deps: { folder: string; clock: Pick<Clock, 'now' | 'wall'>; onCode: (code: string) => void }): Pairing => {
  const key = readKey(deps.folder);
  let code = freshCode();
  const tries = createTries(() => deps.clock.now());

  const sign = (text: string): string => createHmac('sha256', key).update(text).digest('base64url');
  return {
    code: () => code,
    redeem(tried) {
      const waitMs = tries.waitMs();
      if (waitMs > 0) return { ok: false, waitMs };
      if (!same(normal(tried), normal(code))) return { ok: false, waitMs: tries.wrong() };
      tries.right();
      code = freshCode();
      deps.onCode(code);
      const text = `${randomBytes(9).toString('base64url')}.${Math.round(deps.clock.wall() + TOKEN_DAYS * 86_400_000)}`;
      return { ok: true, token: `${text}.${sign(text)}` };
    },
    knows(token) {
      const parts = /^([\w-]{12}\.(\d{1,16}))\.([\w-]{43})$/.exec(token ?? '');
      if (parts === null) return false;
      const [, text = '', until = '', mark = ''] = parts;
      return same(mark, sign(text)) && Number(until) > deps.clock.wall();
    },
  };
};

const freshCode = (): string => {
  const letters = Array.from({ length: CODE_LENGTH }, () => ALPHABET[randomInt(ALPHABET.length)]).join('');
  return `${letters.slice(0, 4)}-${letters.slice(4)}`;
};

const normal = (code: string): string => code.toUpperCase().replaceAll(/[^A-Z0-9]/g, '');

const same = (a: string, b: string): boolean => a.length === b.length && timingSafeEqual(Buffer.from(a), Buffer.from(b));

const readKey = (folder: string): Buffer => {
  const path = join(folder, 'screens.key');
  try {
    const key = readFileSync(path);
    if (key.length === 32) return key;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
  }
  const key = randomBytes(32);
  const fresh = `${path}.new`;
  const file = openSync(fresh, 'w', 0o600);
  writeSync(file, key);
  fsyncSync(file);
  closeSync(file);
  renameSync(fresh, path);
  return key;
};
