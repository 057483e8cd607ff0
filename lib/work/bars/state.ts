import type { BarsId, BootId, EntryId, InstrumentId, PersonId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import type { MilliCelsius } from '#lib/units/temperature';
import type { Realm } from '../batch/entries';
import type { BarsBodies, UnmouldState, WeighedFor } from './entries';

/** One bar lot, folded from its entries. */
export interface BarsState extends Readonly<BarsBodies['bars-begun']> {
  readonly id: BarsId;
  readonly realm: Realm;
  readonly version: number;
  readonly begunWall: number;
  /** Oldest first; the newest that stands says where it is. */
  readonly unmould: readonly UnmouldNoted[];
  readonly cut: (BarsBodies['bars-cut'] & Kept) | null;
  /** The weight their label states. */
  readonly label: Milligrams | null;
  readonly trims: readonly (BarsBodies['bars-trimmed'] & Kept)[];
  readonly wraps: readonly (BarsBodies['bars-wrapped'] & Kept)[];
  readonly weights: readonly BarWeight[];
  readonly photos: readonly (BarsBodies['bars-photo'] & Kept)[];
  readonly notes: readonly (BarsBodies['bars-noted'] & Kept)[];
  readonly place: { readonly name: string; readonly since: number } | null;
  readonly held: { readonly entry: EntryId; readonly reason: string; readonly wall: number } | null;
  readonly moves: readonly StockMove[];
  readonly counts: BarCounts;
  /** Highest episode consumed in `boot`. */
  readonly consumed: { readonly boot: BootId; readonly episode: number };
}

/** Where something stands in the record. `struck`: crossed out by that entry; both show for ever. */
export interface Kept {
  readonly entry: EntryId;
  readonly wall: number;
  readonly offsetMin: number;
  readonly by: PersonId;
  readonly struck: EntryId | null;
}

export interface UnmouldNoted extends Kept {
  readonly state: UnmouldState;
  readonly note: string;
  readonly room: MilliCelsius | null;
  readonly humidity?: number;
  readonly probe?: string;
}

export interface BarWeight extends Kept {
  readonly bar: number | null;
  readonly for: WeighedFor;
  /** Of a mass: what it is. */
  readonly known?: Milligrams;
  readonly net: Milligrams;
  /** As the scale, or a person, wrote it. */
  readonly text: string;
  readonly unit: string;
  /** `null`: typed by hand. */
  readonly scale: { readonly instrument: InstrumentId; readonly step: Milligrams; readonly checked: boolean } | null;
}

export type StockKind = 'sold' | 'given' | 'spoiled' | 'taken' | 'brought-home';

export interface StockMove extends Kept {
  readonly kind: StockKind;
  readonly count: number;
  readonly to: PersonId | null;
  readonly at: string | null;
  readonly from: 'shelf' | 'away' | 'buyer' | 'aside';
  readonly note: string;
  readonly was?: 'given';
  readonly into?: 'aside';
}

/** Bars, not ends nor testers. `shelf` + `away` + `aside` + `sold` + `given` + `spoiled` = `made`. */
export interface BarCounts {
  readonly made: number;
  readonly shelf: number;
  readonly away: number;
  /** Given back, and kept apart until somebody has looked. */
  readonly aside: number;
  readonly sold: number;
  readonly given: number;
  readonly spoiled: number;
}
