import * as z from 'zod/mini';
import type { BootId, EntryId, IntentId, PersonId } from '#lib/units/id';
import type { EntryHead } from './batch/entries';
import { id, whole } from './batch/upcast/atoms';

/** Why a stored entry cannot be read by this program. What it belongs to is then shown as far as it was stored, and only read. */
export interface UpcastFailure {
  /** `unknown-kind` and `unknown-version`: written by a newer program. `malformed`: not what any program of ours wrote. */
  readonly code: 'unknown-kind' | 'unknown-version' | 'malformed';
  readonly kind: string | null;
  /** Where in the entry, and what is wrong there. */
  readonly detail: string;
}

export type Upcast<E> = { readonly ok: true; readonly entry: E } | { readonly ok: false; readonly failure: UpcastFailure };

export type UpcastLines<E> =
  { readonly ok: true; readonly entries: readonly E[] } | { readonly ok: false; readonly at: number; readonly failure: UpcastFailure };

const head = {
  id: id<EntryId>(),
  batch: z.string().check(z.minLength(1)),
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
} satisfies { [K in keyof EntryHead]: z.ZodMiniType };

/** The journal seals a salt into each line; it says nothing. */
const HEAD = z.strictObject({ ...head, kind: z.string(), body: z.unknown(), salt: z.optional(z.string()) });

const loose = z.object({ kind: z.optional(z.string()), v: z.optional(z.unknown()) });

const failed = (
  code: UpcastFailure['code'],
  kind: string | null,
  detail: string,
): { readonly ok: false; readonly failure: UpcastFailure } => ({
  ok: false,
  failure: { code, kind, detail },
});

const issue = (at: string, { issues }: z.core.$ZodError): string => {
  const [first] = issues;
  return first === undefined ? at : `${[at, ...first.path].filter((part) => part !== '').join('.')}: ${first.message || first.code}`;
};

/**
 * Reads stored values as the entries of one kind of stream, whose `bodies` are given by kind. Strict: an unknown kind, version or key is a
 * failure, never a guess. Nothing is written back and nothing is made from an entry to compare with what was stored: hashes are checked
 * on the text.
 */
export const upcasting = <E>(bodies: Readonly<Record<string, z.ZodMiniType>>) => {
  const upcast = (stored: unknown): Upcast<E> => {
    const seen = loose.safeParse(stored);
    if (!seen.success || seen.data.kind === undefined) return failed('malformed', null, 'no entry');
    const { kind, v } = seen.data;
    const schema = Object.hasOwn(bodies, kind) ? bodies[kind] : undefined;
    if (schema === undefined) return failed('unknown-kind', kind, `this program knows no ${kind}`);
    if (v !== 1) return failed('unknown-version', kind, `version ${String(v)} of ${kind}`);
    const read = HEAD.safeParse(stored);
    if (!read.success) return failed('malformed', kind, issue('', read.error));
    const body = schema.safeParse(read.data.body);
    if (!body.success) return failed('malformed', kind, issue('body', body.error));
    const { salt: _salt, body: _raw, ...rest } = read.data;
    return { ok: true, entry: { ...rest, kind, body: body.data } as E };
  };
  return {
    upcast,
    /** The lines of one stream, as stored, in order: all of them or the first that cannot be read. */
    upcastLines: (lines: readonly string[]): UpcastLines<E> => {
      const entries: E[] = [];
      for (const [at, line] of lines.entries()) {
        const read = upcast(parsed(line));
        if (!read.ok) return { ok: false, at, failure: read.failure };
        entries.push(read.entry);
      }
      return { ok: true, entries };
    },
  };
};

const parsed = (line: string): unknown => {
  try {
    return JSON.parse(line) as unknown;
  } catch {
    return undefined;
  }
};
