import type { PersonId } from '#lib/units/id';
import { BrokenHistory } from '../batch/evolve/index';
import type { BarsEntry, BarsEntryOf, BarsKind } from './entries';
import { fold } from './evolve/index';
import type { BarsState } from './state';
import { followed } from './weighings';

/** What can happen in the story of a bar lot. */
const BARS_STORY = [
  'begun',
  'unmould',
  'cut',
  'trimmed',
  'labelled',
  'weighed',
  'typed',
  'photo',
  'noted',
  'moved',
  'held',
  'released',
  'wrapped',
  'sold',
  'given',
  'spoiled',
  'taken',
  'brought-home',
  'given-back',
  'put-back',
  'corrected',
] as const;
export type BarsStoryCode = (typeof BARS_STORY)[number];

/** One event with the words' parameters: masses in mg, lengths in µm, temperatures in thousandths of a degree. */
export interface BarsEvent {
  readonly version: number;
  readonly wall: number;
  readonly offsetMin: number;
  readonly by: PersonId;
  readonly via: BarsEntry['via'];
  readonly code: BarsStoryCode;
  readonly params: Readonly<Record<string, string | number>>;
}

/** All that is shown of a bar lot, from its entries alone. */
export interface BarsReview {
  readonly state: BarsState;
  /** Numbers of the bars weighed the first time. */
  readonly followed: readonly number[];
  readonly story: readonly BarsEvent[];
}

type Told = Pick<BarsEvent, 'code' | 'params'>;
type Params = BarsEvent['params'];

/** A value that may be unknown is left out: unknown is not a number. */
const known = (values: Readonly<Record<string, string | number | null>>): Params =>
  Object.fromEntries(Object.entries(values).flatMap(([key, value]) => (value === null ? [] : [[key, value]])));

const told = (code: BarsStoryCode, params: Readonly<Record<string, string | number | null>>): Told => ({ code, params: known(params) });

const HOME = { away: 'brought-home', buyer: 'given-back', aside: 'put-back' } as const;

const TELL: { readonly [K in BarsKind]: (entry: BarsEntryOf<K>) => Told } = {
  'bars-begun': ({ body: { mould, of, batter } }) => told('begun', { mould: mould.name, name: of.formula.name, batter }),
  'bars-unmould-noted': ({ body }) => told('unmould', { ...body }),
  'bars-cut': ({ body: { cutter, count, ends, testers, thickness } }) =>
    told('cut', { cutter: cutter.name, count, ends, testers, thickness }),
  'bars-trimmed': ({ body }) => told('trimmed', { ...body }),
  'bars-labelled': ({ body }) => told('labelled', { ...body }),
  'bars-weighed': ({ body: { bar, for: purpose, weighed, how, known: mass = null } }) =>
    told('weighed', { bar, for: purpose, known: mass, net: weighed.net, how }),
  'bars-weight-typed': ({ body: { bar, for: purpose, typed } }) => told('typed', { bar, for: purpose, net: typed.net, text: typed.text }),
  'bars-photo': ({ body: { day, note } }) => told('photo', { day, note }),
  'bars-noted': ({ body }) => told('noted', { ...body }),
  'bars-moved': ({ body }) => told('moved', { ...body }),
  'bars-held': ({ body }) => told('held', { ...body }),
  'bars-released': ({ body }) => told('released', { ...body }),
  'bars-wrapped': ({ body: { bars, used, note } }) =>
    told('wrapped', {
      bars,
      used: used.map(({ pieces, name, lot }) => `${pieces} × ${name}${lot === null ? '' : ` ${lot}`}`).join(', '),
      note,
    }),
  'bars-sold': ({ body }) => told('sold', { ...body }),
  'bars-given': ({ body }) => told('given', { ...body }),
  'bars-spoiled': ({ body }) => told('spoiled', { ...body }),
  'bars-taken': ({ body }) => told('taken', { ...body }),
  'bars-brought-home': ({ body }) => told(HOME[body.from], { ...body }),
  'bars-corrected': ({ body }) => told('corrected', { ...body }),
};

const tell = (entry: BarsEntry): BarsEvent => {
  const { version, wall, offsetMin, by, via } = entry;
  const tellOf = TELL[entry.kind] as (entry: BarsEntry) => Told;
  return { version, wall, offsetMin, by, via, ...tellOf(entry) };
};

/** Throws `BrokenHistory` when the entries are not one bar lot from its beginning. */
export const review = (entries: readonly BarsEntry[]): BarsReview => {
  const state = fold(entries);
  if (state === null) throw new BrokenHistory('bars without entries have no review');
  return { state, followed: followed(state), story: entries.map(tell) };
};
