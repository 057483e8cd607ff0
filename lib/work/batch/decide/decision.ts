import type { BatchId } from '#lib/units/id';
import type { CommandKind, CommandOf, Refusal, RefusalCode } from '../commands';
import type { Draft, EntryBodies, EntryKind } from '../entries';
import type { BatchState } from '../state';

/** What comes of a command: entries to be committed together, or a refusal in codes. Never both, never an exception. */
export type Decision =
  { readonly ok: true; readonly drafts: readonly Draft[]; readonly begins?: Begins } | { readonly ok: false; readonly refusal: Refusal };

/** The first entries of another batch, committed with those of the one that was decided about. */
export interface Begins {
  readonly batch: BatchId;
  readonly drafts: readonly Draft[];
}

/** Decides one kind of command about a batch that has started. */
export type Decider<K extends CommandKind> = (state: BatchState, command: CommandOf<K>) => Decision;

export const allow = (...drafts: readonly Draft[]): Decision => ({ ok: true, drafts });

export const refusal = (code: RefusalCode, params: Refusal['params'] = {}): Refusal => ({ code, params });

export const refuse = (code: RefusalCode, params: Refusal['params'] = {}): Decision => deny(refusal(code, params));

export const deny = (refusal: Refusal): Decision => ({ ok: false, refusal });

export const draft = <K extends EntryKind>(kind: K, body: EntryBodies[K]): Draft => ({ kind, body }) as Draft;
