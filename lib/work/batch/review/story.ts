import type { EntryId, LineId, PersonId, VesselId } from '#lib/units/id';
import type { Entry, EntryKind, EntryOf, Standing } from '../entries';
import { own } from '../own';
import type { RemedyShown } from '../remedy/record';
import type { BatchState } from '../state';
import { POUR_STORY, pouredOf } from './pour-story';

/** What can happen in the story of a batch. Weights that went as planned are told by the lines, not here. */
export const STORY_CODES = [
  'started',
  'scale-never-checked',
  'scale-stood-in',
  'replanned',
  'lot-chosen',
  'gate-confirmed',
  'typed-by-hand',
  'weighed-back',
  'questioned',
  'question-kept',
  'question-struck',
  'crossed-out',
  'over-pour',
  'over-pour-red',
  'over-carried-on',
  'over-crossed-out',
  'remedy-chosen',
  'remedy-done',
  'wrong-stated',
  'closed-short',
  'moved',
  'withdrawn',
  'lost',
  'split',
  'pattern-named',
  'pattern-dropped',
  'parted',
  'mould-poured',
  'left-over',
  'batter-wrong',
  'photo-asked',
  'temperature',
  'temperature-by-hand',
  'dissolved',
  'override',
  'joined',
  'trace',
  'went-away',
  'came-back',
  'came-back-unlike',
  'resumed',
  'parked',
  'taken-up',
  'abandoned',
  'closed',
  'scale-checked',
  'alarm',
  'alarm-silenced',
  'instrument-lost',
  'instrument-back',
  'clock-jumped',
  'noted',
  'cleaned',
  'amended',
  'photo-kept',
] as const;
export type StoryCode = (typeof STORY_CODES)[number];

type Params = Readonly<Record<string, string | number>>;

/** One event with the words' parameters: masses in mg, temperatures in thousandths of a degree. */
export interface StoryEvent {
  readonly version: number;
  readonly wall: number;
  readonly offsetMin: number;
  readonly by: PersonId;
  readonly via: Entry['via'];
  readonly code: StoryCode;
  readonly params: Params;
}

type Told = Pick<StoryEvent, 'code' | 'params'>;
/** Names and weights come from the batch as it ended; nothing of them is ever erased. */
type Tell<K extends EntryKind> = (entry: EntryOf<K>, batch: BatchState) => readonly Told[];

const told = (code: StoryCode, params: Params = {}): readonly Told[] => [{ code, params }];
const nothing = (): readonly Told[] => [];

/** A value that may be unknown is left out: unknown is not a number. */
const known = (key: string, value: string | number | null): Params => (value === null ? {} : { [key]: value });

/** Whether a person stated the mass. */
const stated = ({ source }: { readonly source?: 'by-hand' }): Params => known('source', source ?? null);

const material = (batch: BatchState, line: LineId | null): Params =>
  line === null ? {} : { line, material: own(batch.lines, line)?.plan.material.name ?? line };

const vesselName = (batch: BatchState, id: VesselId): string => own(batch.vessels, id)?.plan.name ?? id;

const weightOf = (batch: BatchState, entry: EntryId): Params => {
  const line = Object.values(batch.lines).find(({ contributions }) => contributions.some((one) => one.entry === entry));
  const one = line?.contributions.find((contribution) => contribution.entry === entry);
  return line === undefined || one === undefined ? {} : { ...material(batch, line.plan.id), net: one.net };
};

/** What was taken of a mixture, portions among it, comes back of several lines at once: it is told by its vessel. */
const takenOf = (batch: BatchState, out: readonly Standing[] = []): Params => {
  const [first, ...more] = out;
  if (first === undefined || more.length === 0 || out.some(({ mass }) => mass > 0)) return {};
  return { material: vesselName(batch, first.vessel), net: -out.reduce((sum, { mass }) => sum + mass, 0) };
};

/** A card in parameters: what it was named, with which figures. */
const cardParams = (card: RemedyShown, batch: BatchState, prefix: string): Params => {
  const { kind, params, figures, whyNot, added, taken, leaves, ownBatch = [] } = card;
  const nameOf = (line: string | number): string => own(batch.lines, line as LineId)?.plan.material.name ?? String(line);
  const line = params['line'];
  const superfat = figures?.superfat ?? null;
  const facts: Params = {
    kind,
    ...(typeof line === 'string' ? { of: nameOf(line) } : {}),
    ...known('count', params['count'] ?? null),
    ...Object.fromEntries(
      [1, 2, 3].flatMap((n) => {
        const [of, by] = [params[`line ${n}`], params[`move ${n}`]];
        return of === undefined || by === undefined ? [] : [[`of ${n}`, nameOf(of)] as const, [`move ${n}`, by] as const];
      }),
    ),
    ...known('mass', params['mass'] ?? null),
    ...(superfat === null ? {} : { superfat: superfat.value, low: superfat.low, high: superfat.high }),
    ...known('lye', figures?.lye ?? null),
    ...known('whyNot', whyNot),
    ...known('why', card.recommended),
    ...(leaves.length === 0 ? {} : { leaves: leaves.map(({ limit }) => limit).join(' ') }),
    added,
    taken,
    ...(ownBatch.length === 0 ? {} : { own: ownBatch.length }),
    ...Object.assign(
      {},
      ...ownBatch.map(({ line: of, mass }, n) => ({ [`own ${n + 1} of`]: material(batch, of)['material'] ?? of, [`own ${n + 1}`]: mass })),
    ),
  };
  return Object.fromEntries(Object.entries(facts).map(([key, value]) => [prefix === '' ? key : `${prefix} ${key}`, value]));
};

/** The chosen card, then each other one under its number: all that stood on the screen. */
const remedyParams = ({ over, card, others, solved }: EntryOf<'remedy-chosen'>['body'], batch: BatchState): Params => ({
  ...(over === null ? {} : { ...material(batch, over.line), over: over.by, red: over.red ? 1 : 0 }),
  ...cardParams(card, batch, ''),
  solved: solved ? 1 : 0,
  others: others.length,
  ...Object.assign({}, ...others.map((other, n) => cardParams(other, batch, `other ${n + 1}`))),
});

const TELL: { readonly [K in EntryKind]: Tell<K> } = {
  'batch-started': ({ body }) => [
    ...told('started', {
      name: body.plan.formula.name,
      formulaVersion: body.plan.formula.version,
      ...(body.from === undefined ? {} : { from: body.from.mark, mass: body.from.mass, ...stated(body.from) }),
    }),
    ...body.uncheckedScales.flatMap((instrument) => told('scale-never-checked', { instrument })),
    ...body.plan.lines.flatMap(({ id, meant, scale, tolerance, material: { name } }) =>
      meant === undefined ? [] : told('scale-stood-in', { line: id, material: name, meant, scale, tolerance }),
    ),
  ],
  replanned: ({ body }, batch) =>
    body.lines.flatMap(({ id, target }) =>
      // A way out states every line anew, those that stay as they were planned too.
      body.reason === 'remedy' && own(batch.lines, id)?.planned.target === target
        ? []
        : told('replanned', { ...material(batch, id), to: target, reason: body.reason }),
    ),
  'lot-chosen': ({ body }, batch) =>
    told('lot-chosen', { ...material(batch, body.line), lot: body.lot.mark, ...known('despite', body.despite ?? null) }),
  'gate-confirmed': ({ body }, batch) => told('gate-confirmed', { gate: body.gate, ...material(batch, body.line) }),
  'vessel-set': nothing,
  'weight-accepted': nothing,
  'weight-typed': ({ body }, batch) =>
    told('typed-by-hand', { ...material(batch, body.line), net: body.typed.net, text: body.typed.text, unit: body.typed.unit }),
  'weighed-back': ({ body }, batch) => told('weighed-back', { vessel: vesselName(batch, body.vessel), net: body.weighed.net }),
  'vessel-lifted': nothing,
  'weight-questioned': ({ body }, batch) =>
    told('questioned', { ...weightOf(batch, body.entry), why: body.why, was: body.was, now: body.now }),
  'question-answered': ({ body }, batch) => told(body.answer === 'keep' ? 'question-kept' : 'question-struck', weightOf(batch, body.entry)),
  struck: ({ body }, batch) =>
    told('crossed-out', {
      ...weightOf(batch, body.entry),
      ...pouredOf(batch, body.entry),
      ...takenOf(batch, body.out),
      reason: body.reason,
      note: body.note,
    }),
  'over-answered': ({ body }, batch) =>
    told(body.choice === 'carry-on' ? 'over-carried-on' : 'over-crossed-out', {
      ...material(batch, body.line),
      over: body.over,
      red: body.red ? 1 : 0,
    }),
  'remedy-chosen': ({ body }, batch) => told('remedy-chosen', remedyParams(body, batch)),
  'remedy-act-done': ({ body }, batch) =>
    told('remedy-done', { kind: body.kind, vessel: vesselName(batch, body.vessel), asked: body.asked, mass: body.done }),
  'wrong-stated': ({ body }, batch) =>
    told('wrong-stated', {
      what: body.what,
      ...material(batch, body.line),
      ...(body.vessel === null ? {} : { vessel: vesselName(batch, body.vessel) }),
      ...known('mass', body.mass),
      ...(body.was === undefined ? {} : { truly: own(batch.lines, body.was)?.plan.material.name ?? body.was }),
      ...known('lot', body.lot?.mark ?? null),
    }),
  'line-closed': ({ body }, batch) =>
    body.outcome === 'short' ? told('closed-short', { ...material(batch, body.line), actual: body.actual }) : [],
  'line-reopened': nothing,
  moved: ({ body }, batch) =>
    told('moved', {
      from: vesselName(batch, body.from),
      to: vesselName(batch, body.to),
      mass: body.mass,
      ...known('residue', body.residue),
      ...stated(body),
    }),
  withdrawn: ({ body }, batch) =>
    told('withdrawn', {
      vessel: vesselName(batch, body.vessel),
      mass: body.mass,
      ppm: body.ppm,
      to: body.to,
      ...known('begins', body.begins?.mark ?? null),
      ...stated(body),
    }),
  lost: ({ body }, batch) =>
    told('lost', { vessel: vesselName(batch, body.vessel), mass: body.mass, cause: body.cause, note: body.note, ...stated(body) }),
  split: ({ body }, batch) =>
    told('split', {
      vessel: vesselName(batch, body.vessel),
      parts: body.parts.length,
      ...known('net', body.weighed?.net ?? null),
      ...stated(body),
    }),
  ...POUR_STORY,
  'temperature-noted': ({ body }) =>
    told(body.source === 'by-hand' ? 'temperature-by-hand' : 'temperature', { use: body.use, value: body.value, why: body.why }),
  dissolved: ({ body }, batch) =>
    told('dissolved', {
      vessel: vesselName(batch, body.vessel),
      into: vesselName(batch, body.into),
      ...known('foretold', body.foretold?.likely.value ?? null),
    }),
  override: ({ body }) =>
    told('override', {
      reason: body.reason,
      note: body.note,
      ...known('value', body.value),
      ...known('limit', body.limit),
      ...body.superfat,
    }),
  joined: ({ body }) => told('joined', { ...known('lye', body.lye), ...known('oils', body.oils), overrides: body.overrides.length }),
  'trace-stamped': ({ body }) => told('trace', { mark: body.mark, note: body.note, ...known('batter', body.batter) }),
  'went-away': ({ body }, batch) => told('went-away', material(batch, body.line)),
  'came-back': ({ body }) => told(body.same ? 'came-back' : 'came-back-unlike', { ...known('was', body.was), ...known('now', body.now) }),
  resumed: ({ body }, batch) => told('resumed', { ...material(batch, body.line), contents: body.contents, note: body.note }),
  parked: ({ body }) => told('parked', { reason: body.reason }),
  'taken-up': ({ body: { note, moulds = [] } }) =>
    told('taken-up', { note, ...(moulds.length === 0 ? {} : { moulds: moulds.map(({ name }) => name).join(', ') }) }),
  abandoned: ({ body }) => told('abandoned', { reason: body.reason }),
  closed: ({ body }) => told('closed', { actual: body.actual }),
  'scale-checked': ({ body }) =>
    told('scale-checked', { instrument: body.instrument, nominal: body.nominal, shown: body.shown, difference: body.difference }),
  'alarm-raised': ({ body }, batch) => {
    const about = { ...material(batch, body.line), ...known('instrument', body.instrument) };
    if (body.over !== undefined)
      return told(body.code === 'over-pour-red' ? 'over-pour-red' : 'over-pour', { ...about, over: body.over.by });
    return told('alarm', { code: body.code, detail: body.detail, ...about });
  },
  'alarm-ended': nothing,
  'alarm-silenced': ({ body }) => told('alarm-silenced', { code: body.code }),
  'instrument-lost': ({ body }) => told('instrument-lost', { instrument: body.instrument, ...known('last', body.last) }),
  'instrument-back': ({ body }) => told('instrument-back', { instrument: body.instrument }),
  'clock-jumped': ({ body }) => told('clock-jumped', { byMs: body.byMs, kind: body.kind }),
  noted: ({ body }) => told('noted', { text: body.text, ...(body.deviation === true ? { deviation: 'stated' } : {}) }),
  cleaned: ({ body }) => told('cleaned', { items: body.items.join(', ') }),
  amended: ({ body }, batch) => {
    const { what, of, was, is, why } = body;
    return told('amended', { what, of, was, is, why, ...material(batch, body.line) });
  },
  'photo-kept': ({ body }) => told('photo-kept', { caption: body.caption, of: body.of }),
};

/** What one entry adds to the story. */
export const tell = (entry: Entry, batch: BatchState): readonly StoryEvent[] => {
  const { version, wall, offsetMin, by, via } = entry;
  const tellOf = TELL[entry.kind] as Tell<EntryKind>;
  return tellOf(entry, batch).map((event) => ({ version, wall, offsetMin, by, via, ...event }));
};
