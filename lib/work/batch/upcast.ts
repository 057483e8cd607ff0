import * as z from 'zod/mini';
import type { BatchId, BootId, EntryId, IntentId, PersonId } from '#lib/units/id';
import type { Entry, EntryHead, EntryKind } from './entries';
import { id, whole } from './upcast/atoms';
import { BODIES } from './upcast/bodies';

/** Why a stored entry cannot be read by this program. The batch it belongs to is then shown as far as it was stored, and only read. */
export interface UpcastFailure {
  /** `unknown-kind` and `unknown-version`: written by a newer program. `malformed`: not what any program of ours wrote. */
  readonly code: 'unknown-kind' | 'unknown-version' | 'malformed';
  readonly kind: string | null;
  /** Where in the entry, and what is wrong there. */
  readonly detail: string;
}

export type Upcast = { readonly ok: true; readonly entry: Entry } | { readonly ok: false; readonly failure: UpcastFailure };

const head = {
  id: id<EntryId>(),
  batch: id<BatchId>(),
  version: z.int().check(z.gte(1)),
  realm: z.enum(['real', 'practice', 'test']),
  v: z.literal(1),
  by: id<PersonId>(),
  via: z.enum(['screen', 'bench', 'server']),
  intent: z.nullable(id<IntentId>()),
  boot: id<BootId>(),
  mono: whole,
  wall: whole,
  offsetMin: whole,
} satisfies { [K in keyof EntryHead]: z.ZodMiniType<EntryHead[K]> };

/** The journal seals a salt into each line; it says nothing. */
const HEAD = z.strictObject({ ...head, kind: z.string(), body: z.unknown(), salt: z.optional(z.string()) });

const loose = z.object({ kind: z.optional(z.string()), v: z.optional(z.unknown()) });

const isKind = (kind: string): kind is EntryKind => Object.hasOwn(BODIES, kind);

const failed = (code: UpcastFailure['code'], kind: string | null, detail: string): Upcast => ({
  ok: false,
  failure: { code, kind, detail },
});

const issue = (at: string, { issues }: z.core.$ZodError): string => {
  const [first] = issues;
  return first === undefined ? at : `${[at, ...first.path].filter((part) => part !== '').join('.')}: ${first.message || first.code}`;
};

/**
 * A stored value to the entry it is in the newest version. Strict: an unknown kind, version or key is a failure, never a guess.
 * Nothing is written back and nothing is made from the entry to compare with what was stored: hashes are checked on the text.
 */
export const upcast = (stored: unknown): Upcast => {
  const seen = loose.safeParse(stored);
  if (!seen.success || seen.data.kind === undefined) return failed('malformed', null, 'no entry');
  const { kind, v } = seen.data;
  if (!isKind(kind)) return failed('unknown-kind', kind, `this program knows no ${kind}`);
  if (v !== 1) return failed('unknown-version', kind, `version ${String(v)} of ${kind}`);
  const whole = HEAD.safeParse(stored);
  if (!whole.success) return failed('malformed', kind, issue('', whole.error));
  const body = BODIES[kind].safeParse(whole.data.body);
  if (!body.success) return failed('malformed', kind, issue('body', body.error));
  const { salt: _salt, body: _raw, ...rest } = whole.data;
  return { ok: true, entry: { ...rest, kind, body: body.data } as Entry };
};

/** The lines of one batch, as stored, in order: all of them or the first that cannot be read. */
export const upcastLines = (
  lines: readonly string[],
):
  | { readonly ok: true; readonly entries: readonly Entry[] }
  | { readonly ok: false; readonly at: number; readonly failure: UpcastFailure } => {
  const entries: Entry[] = [];
  for (const [at, line] of lines.entries()) {
    const read = upcast(parsed(line));
    if (!read.ok) return { ok: false, at, failure: read.failure };
    entries.push(read.entry);
  }
  return { ok: true, entries };
};

const parsed = (line: string): unknown => {
  try {
    return JSON.parse(line) as unknown;
  } catch {
    return undefined;
  }
};
