import type { Refusal } from '../../batch/commands';
import { refusal } from '../../batch/decide/decision';
import type { BarsCommandKind, BarsCommandOf } from '../commands';
import type { BarsBodies, BarsDraft, BarsKind } from '../entries';
import type { BarsState } from '../state';

/** What comes of a command about bars: entries to be committed together, or a refusal in codes. */
export type BarsDecision = { readonly ok: true; readonly drafts: readonly BarsDraft[] } | { readonly ok: false; readonly refusal: Refusal };

/** Decides one kind of command about bars that have begun. */
export type BarsDecider<K extends BarsCommandKind> = (state: BarsState, command: BarsCommandOf<K>) => BarsDecision;

export const allow = (...drafts: readonly BarsDraft[]): BarsDecision => ({ ok: true, drafts });

export const deny = (no: Refusal): BarsDecision => ({ ok: false, refusal: no });

export const refuse = (...why: Parameters<typeof refusal>): BarsDecision => deny(refusal(...why));

export const draft = <K extends BarsKind>(kind: K, body: BarsBodies[K]): BarsDraft => ({ kind, body }) as BarsDraft;
