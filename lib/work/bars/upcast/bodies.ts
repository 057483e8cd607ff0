import * as z from 'zod/mini';
import type { BatchId, EntryId, PersonId } from '#lib/units/id';
import { degrees, id, mass, unit, weighed, whole } from '../../batch/upcast/atoms';
import { oneOf } from '../../words';
import type { BarsBodies, BarsKind, CorrectReason, CutterKind, NoteAbout, StockMoved, TrimHow, UnmouldState, WeighedFor } from '../entries';

const text = z.string();
const state = oneOf<UnmouldState>({ out: true, stuck: true, torn: true, 'too-soft': true, freezer: true, 'not-yet': true });
const kind = oneOf<CutterKind>({ fixed: true, adjustable: true, none: true });
const trimHow = oneOf<TrimHow>({ planed: true, bevelled: true, stamped: true });
const purpose = oneOf<WeighedFor>({ cure: true, net: true, mass: true });
const about = oneOf<NoteAbout>({ scent: true, colour: true, room: true, other: true });
const reason = oneOf<CorrectReason>({ mistyped: true, 'wrong-bar': true, 'something-on-the-pan': true, undone: true, other: true });
const room = z.nullable(degrees);
const person = z.nullable(id<PersonId>());
const at = z.nullable(text);
const bar = z.nullable(whole);
const typed = z.strictObject({ net: mass, text, unit });

const mould = z.strictObject({
  id: z.nullable(text),
  name: text,
  gives: z.enum(['log', 'bars']),
  cavities: whole,
  length: z.nullable(whole),
  width: z.nullable(whole),
  depth: z.nullable(whole),
});

const begun = z.strictObject({
  of: z.strictObject({
    batch: id<BatchId>(),
    mark: text,
    formula: z.strictObject({ id: text, name: text, version: whole }),
  }),
  n: whole,
  moulds: z.array(whole),
  mark: text,
  mould,
  poured: whole,
  batter: z.nullable(mass),
  water: z.nullable(whole),
  pattern: text,
  traits: z.strictObject({ salt: z.boolean(), wax: z.boolean(), vanillin: z.boolean() }),
});

const leaving: z.ZodMiniType<StockMoved> = z.strictObject({
  count: whole,
  to: person,
  at,
  from: z.enum(['shelf', 'away', 'aside']),
  note: text,
});

/** The body of each kind in its one version so far, key for key. */
export const BODIES: { readonly [K in BarsKind]: z.ZodMiniType<BarsBodies[K]> } = {
  'bars-begun': begun,
  'bars-unmould-noted': z.strictObject({
    state,
    note: text,
    room,
    humidity: z.exactOptional(whole),
    probe: z.exactOptional(text),
  }),
  'bars-cut': z.strictObject({
    cutter: z.strictObject({ id: z.nullable(text), name: text, kind }),
    count: whole,
    ends: whole,
    testers: whole,
    thickness: z.nullable(whole),
    log: z.nullable(z.strictObject({ length: whole, trim: whole, kerf: whole })),
    mass: z.nullable(mass),
  }),
  'bars-trimmed': z.strictObject({ how: trimHow, bars: whole, before: mass, after: mass }),
  'bars-labelled': z.strictObject({ net: mass }),
  'bars-weighed': z.strictObject({ bar, for: purpose, weighed, how: z.enum(['by-itself', 'go-on']), known: z.exactOptional(mass) }),
  'bars-weight-typed': z.strictObject({ bar, for: purpose, typed }),
  'bars-photo': z.strictObject({ sha256: text, day: whole, note: text }),
  'bars-noted': z.strictObject({ about, text, room, humidity: z.nullable(whole) }),
  'bars-moved': z.strictObject({ place: text }),
  'bars-held': z.strictObject({ reason: text }),
  'bars-released': z.strictObject({ note: text }),
  'bars-wrapped': z.strictObject({
    bars: whole,
    used: z.array(z.strictObject({ goods: text, name: text, lot: z.nullable(text), pieces: whole })),
    note: text,
  }),
  'bars-sold': leaving,
  'bars-given': leaving,
  'bars-spoiled': leaving,
  'bars-taken': z.strictObject({ count: whole, at, note: text }),
  'bars-brought-home': z.strictObject({
    count: whole,
    from: z.enum(['away', 'buyer', 'aside']),
    to: person,
    at,
    note: text,
    was: z.exactOptional(z.literal('given')),
    into: z.exactOptional(z.literal('aside')),
  }),
  'bars-corrected': z.strictObject({ entry: id<EntryId>(), reason, note: text }),
};
