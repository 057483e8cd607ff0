import type { Brand } from './brand';

/** Identities are opaque strings; the brand keeps a line's id from standing where a lot's belongs. */
export type InstrumentId = Brand<string, 'instrument'>;
export type BatchId = Brand<string, 'batch'>;
/** A bar lot. */
export type BarsId = Brand<string, 'bars'>;
export type LineId = Brand<string, 'line'>;
export type VesselId = Brand<string, 'vessel'>;
export type LotId = Brand<string, 'lot'>;
export type MaterialId = Brand<string, 'material'>;
export type PersonId = Brand<string, 'person'>;
export type EntryId = Brand<string, 'entry'>;
export type IntentId = Brand<string, 'intent'>;
export type BootId = Brand<string, 'boot'>;
export type ScreenId = Brand<string, 'screen'>;

/** Takes an id as it stands. The one place where a plain string becomes an identity. */
export const as = <T extends string>(id: string): T => id as T;
