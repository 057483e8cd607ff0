import type { IntentWant } from '#lib/protocol/intent';
import { as } from '#lib/units/id';
import type { ScaleRole } from '#lib/measure/instrument';
import type { EntryId, InstrumentId, LineId, LotId, VesselId } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import { milliCelsius } from '#lib/units/temperature';
import { isHoldReason } from '#lib/work/batch/hold-reason';
import type { BatchState, Refusal, Want } from '#lib/work/batch/index';
import type { JobKey, Source } from '#lib/work/batch/pouring/types';
import type { ConductorEvent } from '../conductor-types';

/** What becomes of an intent: the conductor hears of it, or it is wanted as it stands, or it opens a batch. */
export type Meaning =
  | { readonly is: 'event'; readonly event: ConductorEvent }
  | { readonly is: 'want'; readonly want: Want }
  | ({ readonly is: 'start' } & Omit<Extract<IntentWant, { kind: 'start' }>, 'kind'>)
  | { readonly is: 'lot'; readonly line: LineId; readonly lot: { readonly id: string; readonly mark: string }; readonly held: boolean }
  | { readonly is: 'scan'; readonly text: string; readonly held: boolean }
  | { readonly is: 'take-up'; readonly batch: string; readonly note: string; readonly moulds: readonly string[] }
  | { readonly is: 'other-lot'; readonly line: LineId; readonly lot: { readonly id: LotId; readonly mark: string }; readonly held: boolean }
  | { readonly is: 'other-scale'; readonly line: LineId; readonly scale: ScaleRole; readonly held: boolean }
  | { readonly is: 'moved'; readonly vessel: 'lye' | 'oils' }
  | { readonly is: 'bars'; readonly said: BarsSaid }
  | { readonly is: 'none'; readonly refusal: Refusal };

const event = (event: ConductorEvent): Meaning => ({ is: 'event', event });
const want = (want: Want): Meaning => ({ is: 'want', want });
const noSuch = (what: string): Meaning => ({ is: 'none', refusal: { code: 'no-such', params: { what } } });

/** About bars on the scale, whatever batch is at the bench. */
export type BarsSaid = Extract<IntentWant, { kind: `bars-${string}` }>;

type Said<K extends IntentWant['kind']> = Extract<IntentWant, { kind: K }>;

/** A new kind of intent does not compile until it means something. */
const MEANINGS: { readonly [K in IntentWant['kind']]: (said: Said<K>, batch: BatchState | null) => Meaning } = {
  'bars-begin': (said) => ({ is: 'bars', said }),
  'bars-press': (said) => ({ is: 'bars', said }),
  'bars-end': (said) => ({ is: 'bars', said }),
  press: ({ key, hold }) => event({ kind: 'press', press: { key, hold } }),
  'take-card': ({ card, code, hold }) => event({ kind: 'take', card, code, hold }),
  'part-pour': () => event({ kind: 'ask', ask: 'part-pour' }),
  'weigh-back': () => event({ kind: 'ask', ask: 'weigh-back' }),
  away: () => event({ kind: 'ask', ask: 'away' }),
  return: () => event({ kind: 'ask', ask: 'return' }),
  start: ({ kind: _kind, ...said }) => ({ is: 'start', ...said }),
  'take-up': ({ batch, note, moulds = [] }) => ({ is: 'take-up', batch, note, moulds }),
  'choose-lot': ({ line: id, lot, held = false }) => ({ is: 'lot', line: line(id), lot, held }),
  scan: ({ text, held = false }) => ({ is: 'scan', text, held }),
  'type-weight': (said) => want({ kind: 'type-weight', body: typedWeight(said) }),
  'type-temperature': ({ use, value }) => want({ kind: 'note-temperature', body: { use, value: milliCelsius(value), why: 'asked' } }),
  strike: ({ entry, reason, note, held }) => want({ kind: 'strike', body: { entry: as<EntryId>(entry), reason, note, held } }),
  move: ({ from, to, mass, residue }) =>
    want({ kind: 'move', body: { from: vessel(from), to: vessel(to), mass: mg(mass), residue: residue === null ? null : mg(residue) } }),
  withdraw: ({ vessel: of, mass, to }) => want({ kind: 'withdraw', body: { vessel: vessel(of), mass: mg(mass), to } }),
  lose: ({ vessel: of, mass, cause, note }) => want({ kind: 'lose', body: { vessel: vessel(of), mass: mg(mass), cause, note } }),
  'state-wrong': (said) => wrong(said),
  'change-scale': ({ line: id, scale, held }) => ({ is: 'other-scale', line: line(id), scale, held }),
  split: ({ vessel: of, parts }) =>
    want({ kind: 'split', body: { vessel: vessel(of), parts: parts.map(({ name, mass }) => ({ name, mass: mg(mass) })) } }),
  'name-pattern': ({ mould, pattern }) => want({ kind: 'name-pattern', body: { mould, pattern } }),
  'pour-into': ({ job, by, from }) => event({ kind: 'job', job: job as JobKey, by, from: from as readonly Source[] | null }),
  'type-part': ({ part, mass }) => want({ kind: 'part', body: { part, mass: mg(mass) } }),
  'type-mould': ({ mould, from, mass }) => want({ kind: 'pour-mould', body: { mould, from: from as readonly Source[], mass: mg(mass) } }),
  'type-left': ({ of, mass }) => want({ kind: 'weigh-left', body: { of: of as Source, mass: mg(mass) } }),
  'ask-photo': ({ of, mould }) => want({ kind: 'ask-photo', body: { of, mould } }),
  park: ({ reason }) => want({ kind: 'park', body: { reason } }),
  abandon: ({ reason, held }) => want({ kind: 'abandon', body: { reason, held } }),
  close: () => want({ kind: 'close', body: {} }),
  override: ({ reason, held, note }) =>
    isHoldReason(reason) ? want({ kind: 'override', body: { reason, held, note } }) : noSuch('reason'),
  join: ({ held }) => want({ kind: 'join', body: { held } }),
  dissolve: ({ held }, batch) => dissolved(held, batch),
  'stamp-trace': ({ mark, note }) => want({ kind: 'stamp-trace', body: { mark, note } }),
  'check-scale': ({ instrument, nominal }) =>
    want({ kind: 'check-scale', body: { instrument: as<InstrumentId>(instrument), nominal: mg(nominal) } }),
  moved: ({ vessel: of }) => ({ is: 'moved', vessel: of }),
  note: ({ text }) => want({ kind: 'note', body: { text } }),
};

/** In words of the record. Nothing measured is taken from here: where a weight is needed, the conductor's own scale gives it. */
export const meaningOf = (said: IntentWant, batch: BatchState | null): Meaning =>
  (MEANINGS[said.kind] as (said: IntentWant, batch: BatchState | null) => Meaning)(said, batch);

const line = (id: string): LineId => as(id);
const vessel = (id: string): VesselId => as(id);

/** Which lot it truly was changes what the batch is worked out from: that the server's own stores say, never the screen. */
const wrong = ({ what, line: of, vessel: at, mass, was, lot, beside, held }: Said<'state-wrong'>): Meaning => {
  if (what === 'lot')
    return of === null || lot === undefined
      ? noSuch('lot')
      : { is: 'other-lot', line: line(of), lot: { id: as(lot.id), mark: lot.mark }, held };
  const about = { line: of === null ? null : line(of), vessel: at === null ? null : vessel(at), mass: mass === null ? null : mg(mass) };
  const more = { ...(was === undefined ? {} : { was: line(was) }), ...(beside === undefined ? {} : { beside }) };
  return want({ kind: 'state-wrong', body: { what, ...about, ...more, held } });
};

const typedWeight = (said: Said<'type-weight'>): Extract<Want, { kind: 'type-weight' }>['body'] => ({
  line: line(said.line),
  typed: { net: mg(said.net), text: said.text, unit: said.unit },
  readBack: said.readBack,
  part: said.part,
  ...(said.held === undefined ? {} : { held: said.held }),
  ...(said.shortIsFine === undefined ? {} : { shortIsFine: said.shortIsFine }),
});

/** Dry hydroxide into its liquid: the plan knows both vessels. */
const dissolved = (held: boolean, batch: BatchState | null): Meaning => {
  const vessels = Object.values(batch?.vessels ?? {});
  const dry = vessels.find((v) => v.plan.use === 'hydroxide');
  const liquid = vessels.find((v) => v.plan.use === 'liquid');
  if (dry === undefined || liquid === undefined) return noSuch('vessel');
  return want({ kind: 'dissolve', body: { vessel: dry.plan.id, into: liquid.plan.id, held } });
};
