import * as z from 'zod/mini';
import { MASS_UNITS, MOST_WEIGHED } from '#lib/units/mass';
import type { BarsSummary, MouldKept } from '#lib/work/bars/index';
import type { BarsReview } from '#lib/work/bars/review';
import type { RecordFoot } from './http';
import type { IntentAnswer } from './intent';

/** One bar lot in a row of the list. */
export type BarsRow = BarsSummary;

/** GET /api/bars?before=&limit= */
export interface BarsList {
  readonly bars: readonly BarsRow[];
  readonly next: string | null;
}

/** GET /api/bars/lot?id= */
export interface BarsPage extends BarsReview {
  readonly row: BarsRow;
  /** By id, what orders and markets are called that its bars went to. */
  readonly orders: Readonly<Record<string, string>>;
  readonly record: RecordFoot;
}

/** GET /api/bars/moulds?batch=: what bars a closed batch can begin, and those it has begun. */
export interface BarsMoulds {
  readonly batch: { readonly id: string; readonly mark: string; readonly name: string };
  /** Of moulds that no bars were begun from. */
  readonly moulds: readonly MouldOffered[];
  readonly begun: readonly BarsRow[];
}
export interface MouldOffered {
  readonly n: number;
  readonly mark: string;
  readonly mould: MouldKept;
  readonly batter: number | null;
  readonly pattern: string;
}

/** GET /api/bars/waiting: batches closed of late with moulds that no bars were begun from; newest first. */
export interface BarsWaiting {
  readonly batches: readonly BarsMoulds[];
}

/** GET /api/bars/due: logs whose window to come out has opened, and those that are out and wait to be cut. */
export interface BarsDue {
  readonly logs: readonly {
    readonly id: string;
    readonly mark: string;
    readonly name: string;
    readonly what: 'unmould' | 'cut';
    /** Wall time by which it has to be cut; `null`: nobody said. */
    readonly before: number | null;
  }[];
}

/** POST answers as the bench's own intents do; a retry with the same id gets the first answer. */
export type BarsAnswer = IntentAnswer;

const intent = z.string().check(z.regex(/^[A-Za-z0-9_-]{8,40}$/));
const name = z.string().check(z.minLength(1), z.maxLength(120));
const text = z.string().check(z.maxLength(500));
const milligrams = z.int().check(z.gte(0), z.lte(MOST_WEIGHED));
const milliCelsius = z.nullable(z.int().check(z.gte(-60_000), z.lte(100_000)));
/** Millionths. */
const humidity = z.int().check(z.gte(0), z.lte(1_000_000));
const count = z.int().check(z.gte(0), z.lte(2000));
const some = count.check(z.gte(1));
const pieces = z.int().check(z.gte(1), z.lte(100_000));
const micrometres = z.int().check(z.gte(0), z.lte(10_000_000));
const person = z.nullable(name);
const bar = z.nullable(some);
const purpose = z.enum(['cure', 'net']);
const leaving = { count: some, to: person, at: z.nullable(name), from: z.enum(['shelf', 'away']), note: text };

/**
 * POST /api/bars. What is known of the moulds and their batch is the server's word. `mould`, `batter`: where the batch names no mould, or
 * it was another one. Several moulds with like bars are one lot.
 */
export const beginAsk = z.object({
  intent,
  batch: name,
  moulds: z.array(some).check(z.minLength(1), z.maxLength(50)),
  mould: z.optional(z.object({ id: z.nullable(name), name, cavities: some })),
  batter: z.optional(milligrams),
  pattern: z.optional(text),
});

/** What a page may want of a bar lot. Nothing measured: a weight here is typed by hand and says so for ever. */
const barsWant = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('note-unmould'),
    state: z.enum(['out', 'stuck', 'torn', 'too-soft', 'freezer', 'not-yet']),
    note: text,
    /** As typed; where nobody typed one, the server adds what the room's probe says. */
    room: milliCelsius,
    humidity: z.optional(humidity),
  }),
  z.object({
    kind: z.literal('cut'),
    cutter: z.object({ id: z.nullable(name), name: text, kind: z.enum(['fixed', 'adjustable', 'none']) }),
    /** 0: nothing came of it. */
    count,
    ends: count,
    testers: count,
    thickness: z.nullable(micrometres),
    log: z.nullable(z.object({ length: micrometres, trim: micrometres, kerf: micrometres })),
    mass: z.nullable(milligrams),
  }),
  z.object({
    kind: z.literal('trim'),
    how: z.enum(['planed', 'bevelled', 'stamped']),
    bars: some,
    before: milligrams,
    after: milligrams,
  }),
  z.object({ kind: z.literal('label'), net: milligrams }),
  z.object({
    kind: z.literal('type-weight'),
    bar,
    for: purpose,
    net: milligrams,
    text: name,
    unit: z.enum(MASS_UNITS),
  }),
  z.object({ kind: z.literal('photo'), sha256: z.string().check(z.regex(/^[0-9a-f]{64}$/)), note: text }),
  z.object({
    kind: z.literal('note'),
    about: z.enum(['scent', 'colour', 'room', 'other']),
    text: z.string().check(z.maxLength(2000)),
    room: milliCelsius,
    humidity: z.nullable(humidity),
  }),
  z.object({ kind: z.literal('move'), place: name }),
  z.object({ kind: z.literal('hold'), reason: text }),
  z.object({ kind: z.literal('release'), note: text }),
  z.object({
    kind: z.literal('wrap'),
    bars: count,
    used: z.array(z.object({ goods: name, lot: z.nullable(name), pieces })).check(z.minLength(1), z.maxLength(40)),
    note: text,
  }),
  z.object({ kind: z.literal('sell'), ...leaving }),
  z.object({ kind: z.literal('give'), ...leaving }),
  z.object({ kind: z.literal('spoil'), ...leaving, from: z.enum(['shelf', 'away', 'aside']) }),
  z.object({ kind: z.literal('take'), count: some, at: z.nullable(name), note: text }),
  z.object({
    kind: z.literal('bring-home'),
    count: some,
    from: z.enum(['away', 'buyer', 'aside']),
    to: person,
    at: z.nullable(name),
    note: text,
    was: z.optional(z.enum(['sold', 'given'])),
    into: z.optional(z.enum(['stock', 'aside', 'spoiled'])),
  }),
  z.object({ kind: z.literal('count-market'), took: some, home: count, gave: count, at: z.nullable(name), note: text }),
  z.object({
    kind: z.literal('correct'),
    entry: name,
    reason: z.enum(['mistyped', 'wrong-bar', 'something-on-the-pan', 'undone', 'other']),
    note: text,
  }),
]);
export type BarsWantAsk = z.infer<typeof barsWant>;

/** POST /api/bars/lot?id= */
export const barsAsk = z.object({ intent, expectedVersion: z.nullable(z.int()), want: barsWant });
export type BarsAsk = z.infer<typeof barsAsk>;
