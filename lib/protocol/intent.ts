import * as z from 'zod/mini';
import { MOST_WEIGHED, MASS_UNITS } from '#lib/units/mass';
import { PATTERNS, PHOTO_SUBJECTS } from '#lib/work/batch/pouring/types';
import type { Refusal } from '#lib/work/batch/index';

/** Identities made on plain-http pages come from getRandomValues; this is their shape. */
const id = z.string().check(z.regex(/^[A-Za-z0-9_-]{8,40}$/));
const name = z.string().check(z.minLength(1), z.maxLength(80));
const text = z.string().check(z.maxLength(500));
const milligrams = z.int().check(z.gte(-MOST_WEIGHED), z.lte(MOST_WEIGHED));
const milliCelsius = z.int().check(z.gte(-60_000), z.lte(300_000));
const pass = z.string().check(z.maxLength(160));
const lot = z.object({ id: name, mark: name });
const sources = z.array(name).check(z.minLength(1), z.maxLength(12));

/** Bars on the bench's scale: `bars` by number in their order, none for any `count` of them. `step`: of the cue that was pressed. */
const barsWants = [
  z.object({
    kind: z.literal('bars-begin'),
    lot: z.string().check(z.minLength(1), z.maxLength(120)),
    bars: z.array(z.int().check(z.gte(1), z.lte(2000))).check(z.maxLength(200)),
    count: z.int().check(z.gte(1), z.lte(2000)),
    for: z.enum(['cure', 'net', 'mass']),
    /** Of a mass: what it is, mg. */
    known: z.optional(milligrams.check(z.gte(1))),
  }),
  z.object({ kind: z.literal('bars-press'), key: z.enum(['go-on', 'back']), step: z.int() }),
  z.object({ kind: z.literal('bars-end') }),
] as const;

/** What a screen may want. Nothing measured: a weight here is typed by hand and says so for ever. */
const wants = z.discriminatedUnion('kind', [
  ...barsWants,
  z.object({ kind: z.literal('press'), key: z.enum(['go-on', 'back', 'silence']), hold: z.boolean() }),
  z.object({ kind: z.literal('take-card'), card: z.int(), code: name, hold: z.boolean() }),
  z.object({
    kind: z.literal('start'),
    plan: name,
    lots: z.record(name, lot),
    /** What was ticked as clean. */
    cleaned: z.optional(z.array(name).check(z.maxLength(12))),
    /** With lots that should not be used. */
    held: z.optional(z.boolean()),
  }),
  z.object({ kind: z.literal('choose-lot'), line: name, lot, held: z.optional(z.boolean()) }),
  /** What a reader of barcodes sent, for the line being weighed. */
  z.object({ kind: z.literal('scan'), text: z.string().check(z.minLength(1), z.maxLength(200)), held: z.optional(z.boolean()) }),
  z.object({
    kind: z.literal('type-weight'),
    line: name,
    net: milligrams,
    text: name,
    unit: z.enum(MASS_UNITS),
    readBack: z.boolean(),
    part: z.boolean(),
    held: z.optional(z.boolean()),
    shortIsFine: z.optional(z.boolean()),
  }),
  z.object({ kind: z.literal('type-temperature'), use: z.enum(['lye', 'oils', 'room', 'batter', 'mould']), value: milliCelsius }),
  z.object({
    kind: z.literal('strike'),
    entry: name,
    reason: z.enum(['wrong-material', 'wrong-vessel', 'something-on-the-pan', 'over-poured', 'mistyped', 'undone', 'other']),
    note: text,
    held: z.boolean(),
  }),
  z.object({ kind: z.literal('move'), from: name, to: name, mass: milligrams, residue: z.nullable(milligrams) }),
  z.object({ kind: z.literal('withdraw'), vessel: name, mass: milligrams, to: z.enum(['bottle', 'waste', 'other-vessel']) }),
  z.object({ kind: z.literal('lose'), vessel: name, mass: milligrams, cause: z.enum(['spill', 'evaporation', 'other']), note: text }),
  /** What went wrong besides an over-pour: a person's word, and held. */
  z.object({
    kind: z.literal('state-wrong'),
    what: z.enum(['spill', 'lot', 'material', 'left-in-jug', 'stock', 'melted']),
    line: z.nullable(name),
    vessel: z.nullable(name),
    mass: z.nullable(milligrams),
    /** The line whose material it truly was; the lot it truly was. */
    was: z.optional(name),
    lot: z.optional(lot),
    /** Said beside ways out that stand already. */
    beside: z.optional(z.literal(true)),
    held: z.boolean(),
  }),
  /** The line goes to the other scale from now on. */
  z.object({ kind: z.literal('change-scale'), line: name, scale: z.enum(['main', 'fine']), held: z.boolean() }),
  z.object({
    kind: z.literal('split'),
    vessel: name,
    parts: z.array(z.object({ name, mass: milligrams })).check(z.minLength(1), z.maxLength(12)),
  }),
  z.object({ kind: z.literal('name-pattern'), mould: z.int(), pattern: z.enum(PATTERNS) }),
  /** What is done with the batter next, weighed by its gain or by what its jug loses; `from`: which jugs, `null` as the pattern says. */
  z.object({ kind: z.literal('pour-into'), job: name, by: z.enum(['gain', 'loss']), from: z.nullable(sources) }),
  z.object({ kind: z.literal('type-part'), part: name, mass: milligrams }),
  z.object({ kind: z.literal('type-mould'), mould: z.int(), from: sources, mass: milligrams }),
  z.object({ kind: z.literal('type-left'), of: name, mass: milligrams }),
  z.object({ kind: z.literal('ask-photo'), of: z.enum(PHOTO_SUBJECTS), mould: z.nullable(z.int()) }),
  z.object({ kind: z.literal('part-pour') }),
  z.object({ kind: z.literal('weigh-back') }),
  z.object({ kind: z.literal('away') }),
  z.object({ kind: z.literal('return') }),
  z.object({ kind: z.literal('park'), reason: text }),
  /** `moulds`: ids of those that a batch without any is poured into. */
  z.object({ kind: z.literal('take-up'), batch: name, note: text, moulds: z.optional(z.array(name).check(z.maxLength(12))) }),
  z.object({ kind: z.literal('abandon'), reason: text, held: z.boolean() }),
  z.object({ kind: z.literal('close') }),
  z.object({ kind: z.literal('override'), reason: name, held: z.boolean(), note: text }),
  z.object({ kind: z.literal('join'), held: z.boolean() }),
  z.object({ kind: z.literal('dissolve'), held: z.boolean() }),
  z.object({ kind: z.literal('stamp-trace'), mark: z.enum(['thin', 'medium', 'thick', 'wrong']), note: text }),
  z.object({ kind: z.literal('check-scale'), instrument: name, nominal: milligrams }),
  /** Moved, covered, stirred: how it cooled before says nothing about what comes. Kept nowhere. */
  z.object({ kind: z.literal('moved'), vessel: z.enum(['lye', 'oils']) }),
  z.object({ kind: z.literal('note'), text: z.string().check(z.minLength(1), z.maxLength(2000)) }),
]);

export const benchIntent = z.object({
  id,
  /** `null` only for `start` and `take-up`. */
  batch: z.nullable(name),
  expectedVersion: z.nullable(z.int()),
  /** What the screen was looking at: another boot, or an episode already consumed, and nothing happens. */
  seen: z.object({ boot: name, episode: z.int() }),
  /** Server monotonic ms after which the intent is void: a tap is never replayed. */
  expires: z.number(),
  /** Who acts on this screen, by the pass that switching to them gave; left out or not holding, the unnamed maker. */
  person: z.optional(pass),
  want: wants,
});

export type BenchIntent = z.infer<typeof benchIntent>;
export type IntentWant = BenchIntent['want'];

/** `accepted`: committed. A retry with the same id gets the stored answer. */
export type IntentAnswer =
  | { readonly ok: true; readonly seq: number; readonly version: number | null; readonly repeated: boolean }
  | { readonly ok: false; readonly refusal: Refusal };

export const sceneAct = z.discriminatedUnion('act', [
  /** Do what the bench waits for next: set down, pour, lift. */
  z.object({ act: z.literal('help') }),
  /** `scale`: on the other one on purpose; left out, the one the bench names. */
  z.object({ act: z.literal('set-down'), vessel: name, scale: z.optional(z.enum(['main', 'fine'])) }),
  z.object({ act: z.literal('lift') }),
  /** Pour the open line: `aim` is what the hand aims for, in mg on top of what is in; `null` = what is left. */
  z.object({ act: z.literal('pour'), aim: z.nullable(milligrams) }),
  z.object({ act: z.literal('over-pour') }),
  z.object({ act: z.literal('splash') }),
  /** A probe left leaning in the vessel that stands on the scale; `help` takes it out. */
  z.object({ act: z.literal('lean-probe') }),
  z.object({ act: z.literal('unplug'), what: z.enum(['main', 'fine', 'lye', 'oils', 'room']) }),
  z.object({ act: z.literal('plug'), what: z.enum(['main', 'fine', 'lye', 'oils', 'room']) }),
  z.object({ act: z.literal('make-lye') }),
  z.object({ act: z.literal('warm'), what: z.enum(['lye', 'oils']) }),
  z.object({ act: z.literal('cool'), what: z.enum(['lye', 'oils']) }),
  /** How fast the simulated kettle cools: 1 or 20. */
  z.object({ act: z.literal('hurry'), times: z.int().check(z.gte(1), z.lte(60)) }),
]);
export type SceneAct = z.infer<typeof sceneAct>;

export const resumeAsk = z.object({ batch: z.nullable(name), seq: z.int().check(z.gte(0)) });
/** `take`: a person's own act, from whoever holds it. `take-free`: the page's, and only when nobody does. */
export const leaseAsk = z.object({ want: z.enum(['take', 'take-free', 'release', 'look']), label: z.string().check(z.maxLength(60)) });
export type LeaseWant = z.infer<typeof leaseAsk>['want'];
export const pairAsk = z.object({ code: z.string().check(z.minLength(4), z.maxLength(40)) });
export const aliveBeat = z.object({ visible: z.boolean(), covered: z.optional(z.boolean()), boot: name, person: z.optional(pass) });
