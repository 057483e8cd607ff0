import * as z from 'zod/mini';
import type { BatchId, EntryId, InstrumentId, LineId, PersonId, VesselId } from '#lib/units/id';
import type { AcceptedHow, AlarmCode, EntryBodies, EntryKind, Gate, HoldReason, OverChoice, StrikeReason, TraceMark } from '../entries';
import { HOLD_REASONS } from '../hold-reason';
import { AMENDABLE } from '../later/types';
import type { LotDespite } from '../later/types';
import { oneOf } from '../../words';
import { degrees, id, mass, unit, use, weighed, whole } from './atoms';
import { course } from './course';
import { line, lot, plan } from './plan';
import { planMould, POURING } from './pouring';
import { actKind, remedyChosen, wrongStated } from './remedy';

const lineId = id<LineId>();
const vesselId = id<VesselId>();
const entryId = id<EntryId>();
const instrumentId = id<InstrumentId>();
const text = z.string();

const share = z.strictObject({ line: lineId, mass });
const standing = z.strictObject({ vessel: vesselId, line: lineId, mass });
const shares = z.exactOptional(z.array(share));
const out = z.exactOptional(z.array(standing));

const eased = z.exactOptional(z.strictObject({ hand: id<PersonId>(), net: mass, coming: mass, rate: whole }));
const typed = z.strictObject({ net: mass, text, unit });

const how = oneOf<AcceptedHow>({ 'by-itself': true, 'go-on': true, held: true, typed: true });
const gate = oneOf<Gate>({ hydroxide: true, 'cold-liquid': true });
const despite = z.exactOptional(oneOf<LotDespite>({ quarantined: true, expired: true, 'used-up': true }));
const hold = oneOf<HoldReason>(HOLD_REASONS);
const outcome = oneOf<EntryBodies['line-closed']['outcome']>({ within: true, over: true, short: true });
const contents = oneOf<EntryBodies['resumed']['contents']>({ 'as-recorded': true, 'poured-more': true, emptied: true, unsure: true });
const alarm = oneOf<AlarmCode>({
  'over-pour': true,
  'over-pour-red': true,
  'vessel-changed': true,
  'scale-lost': true,
  'probe-lost': true,
  'unit-changed': true,
  'tare-pressed': true,
  'lye-too-hot': true,
  'oils-near-setting': true,
  'milk-too-hot': true,
  apart: true,
  'clock-jumped': true,
  'mass-on-return': true,
});
const strikeReason = oneOf<StrikeReason>({
  'wrong-material': true,
  'wrong-vessel': true,
  'something-on-the-pan': true,
  'over-poured': true,
  mistyped: true,
  undone: true,
  other: true,
});
const question = oneOf<EntryBodies['weight-questioned']['why']>({
  'shifted-up': true,
  'shifted-down': true,
  'unlike-on-return': true,
  'changed-on-pan': true,
});
const source = z.union([z.literal('by-hand'), z.strictObject({ instrument: instrumentId, raw: text })]);
const stated = z.exactOptional(z.literal('by-hand'));
const begun = { batch: id<BatchId>(), mark: text };
const brought = z.strictObject({
  ...begun,
  version: whole,
  vessel: vesselId,
  mass,
  shares: z.array(z.strictObject({ line: lineId, mass, lot: z.nullable(lot) })),
  source: stated,
  weighed: z.exactOptional(weighed),
});
const vesselSet = {
  vessel: vesselId,
  line: lineId,
  instrument: instrumentId,
  gross: mass,
  empty: z.nullable(mass),
  episode: whole,
  zero: z.exactOptional(mass),
};

/** Read key for key where it is shown (`../poured/result-schema`), not by every page that folds a batch. */
const poured = z.looseObject({}) as unknown as z.ZodMiniType<NonNullable<EntryBodies['closed']['poured']>>;

/** The body of each kind in its one version so far, key for key: whatever else stands in it is not ours to read. */
export const BODIES: { readonly [K in EntryKind]: z.ZodMiniType<EntryBodies[K]> } = {
  'batch-started': z.strictObject({
    mark: text,
    plan,
    bench: text,
    uncheckedScales: z.array(instrumentId),
    from: z.exactOptional(brought),
  }),
  replanned: z.strictObject({ lines: z.array(line), reason: text }),
  'lot-chosen': z.strictObject({ line: lineId, lot, despite }),
  'gate-confirmed': z.strictObject({ gate, line: z.nullable(lineId), items: z.array(text) }),
  'vessel-set': z.strictObject(vesselSet),
  'weight-accepted': z.strictObject({ line: lineId, vessel: vesselId, weighed, how, part: z.boolean(), lot: z.nullable(lot), eased }),
  'weight-typed': z.strictObject({ line: lineId, vessel: vesselId, typed, part: z.boolean(), lot: z.nullable(lot) }),
  'weighed-back': z.strictObject({ line: lineId, vessel: vesselId, weighed, shares, out }),
  'vessel-lifted': z.strictObject({ vessel: vesselId, gross: mass }),
  'weight-questioned': z.strictObject({ entry: entryId, why: question, was: mass, now: mass }),
  'question-answered': z.strictObject({
    entry: entryId,
    answer: oneOf<EntryBodies['question-answered']['answer']>({ keep: true, strike: true }),
  }),
  struck: z.strictObject({
    entry: entryId,
    reason: strikeReason,
    note: text,
    out,
    recount: z.exactOptional(z.strictObject({ vessel: vesselId, line: lineId, zero: mass })),
  }),
  'over-answered': z.strictObject({
    line: lineId,
    choice: oneOf<OverChoice>({ 'carry-on': true, 'cross-out': true }),
    over: mass,
    red: z.boolean(),
  }),
  'remedy-chosen': remedyChosen,
  'remedy-act-done': z.strictObject({ kind: actKind, vessel: vesselId, asked: mass, done: mass }),
  'wrong-stated': wrongStated,
  'line-closed': z.strictObject({ line: lineId, outcome, actual: mass }),
  'line-reopened': z.strictObject({ line: lineId }),
  moved: z.strictObject({ from: vesselId, to: vesselId, mass, residue: z.nullable(mass), shares, source: stated }),
  withdrawn: z.strictObject({
    vessel: vesselId,
    ppm: whole,
    mass,
    to: oneOf<EntryBodies['withdrawn']['to']>({ bottle: true, waste: true, 'other-vessel': true }),
    shares,
    source: stated,
    weighed: z.exactOptional(weighed),
    begins: z.exactOptional(z.strictObject(begun)),
  }),
  lost: z.strictObject({
    vessel: vesselId,
    mass,
    cause: oneOf<EntryBodies['lost']['cause']>({ spill: true, evaporation: true, other: true }),
    note: text,
    shares,
    source: stated,
  }),
  split: z.strictObject({
    vessel: vesselId,
    parts: z.array(z.strictObject({ name: text, mass })),
    shares,
    source: stated,
    weighed: z.exactOptional(weighed),
  }),
  ...POURING,
  'temperature-noted': z.strictObject({
    use,
    value: degrees,
    source,
    why: oneOf<EntryBodies['temperature-noted']['why']>({ asked: true, joined: true, trace: true, away: true, return: true, peak: true }),
  }),
  dissolved: z.strictObject({
    vessel: vesselId,
    into: vesselId,
    confirmedCold: z.boolean(),
    foretold: z.exactOptional(
      z.strictObject({
        start: degrees,
        likely: z.strictObject({ value: degrees, u: whole }),
        atMost: z.strictObject({ value: degrees, u: whole }),
      }),
    ),
  }),
  override: z.strictObject({
    reason: hold,
    value: z.nullable(degrees),
    limit: z.nullable(degrees),
    note: text,
    superfat: z.exactOptional(z.strictObject({ working: whole, least: whole, chance: whole })),
  }),
  joined: z.strictObject({
    lye: z.nullable(degrees),
    oils: z.nullable(degrees),
    overrides: z.array(hold),
    byHand: z.exactOptional(z.array(oneOf<'lye' | 'oils'>({ lye: true, oils: true }))),
    from: z.exactOptional(z.array(vesselId)),
    into: z.exactOptional(z.nullable(vesselId)),
    course: z.exactOptional(course),
  }),
  'trace-stamped': z.strictObject({
    mark: oneOf<TraceMark>({ thin: true, medium: true, thick: true, wrong: true }),
    batter: z.nullable(degrees),
    note: text,
  }),
  'went-away': z.strictObject({
    line: z.nullable(lineId),
    gross: z.nullable(mass),
    lye: z.nullable(degrees),
    oils: z.nullable(degrees),
  }),
  'came-back': z.strictObject({ same: z.boolean(), was: z.nullable(mass), now: z.nullable(mass) }),
  resumed: z.strictObject({ line: z.nullable(lineId), contents, note: text }),
  parked: z.strictObject({ reason: text }),
  'taken-up': z.strictObject({ note: text, moulds: z.exactOptional(z.array(planMould)) }),
  abandoned: z.strictObject({ reason: text }),
  closed: z.strictObject({ actual: mass, lines: z.array(z.strictObject({ line: lineId, actual: mass })), poured: z.exactOptional(poured) }),
  'scale-checked': z.strictObject({ instrument: instrumentId, nominal: mass, shown: mass, difference: mass }),
  'alarm-raised': z.strictObject({
    code: alarm,
    line: z.nullable(lineId),
    instrument: z.nullable(instrumentId),
    detail: text,
    over: z.exactOptional(z.strictObject({ by: mass, again: z.exactOptional(z.boolean()) })),
  }),
  'alarm-ended': z.strictObject({ code: alarm }),
  'alarm-silenced': z.strictObject({ code: alarm }),
  'instrument-lost': z.strictObject({ instrument: instrumentId, last: z.nullable(mass) }),
  'instrument-back': z.strictObject({ instrument: instrumentId }),
  'clock-jumped': z.strictObject({
    byMs: whole,
    kind: oneOf<EntryBodies['clock-jumped']['kind']>({ 'wall-step': true, suspend: true, stall: true }),
  }),
  noted: z.strictObject({ text, deviation: z.exactOptional(z.literal(true)) }),
  cleaned: z.strictObject({ items: z.array(text) }),
  amended: z.strictObject({
    what: z.enum(AMENDABLE),
    entry: z.nullable(entryId),
    line: z.nullable(lineId),
    of: text,
    was: text,
    is: text,
    why: text,
    lot: z.exactOptional(lot),
  }),
  'photo-kept': z.strictObject({ sha256: text, of: text, caption: text }),
};
