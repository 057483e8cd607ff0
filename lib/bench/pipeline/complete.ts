import { as } from '#lib/units/id';
import type { BatchId, BootId, EntryId, InstrumentId, IntentId, PersonId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import type { Clock, Monotonic } from '#lib/units/time';
import { PROGRAM } from '../program';
import type { BatchState, CommandHead, Observation, Role, TemperatureCourse, Want, Weighed } from '#lib/work/batch/index';
import type { LyeHeat } from '#lib/work/batch/heating';
import { pouredOn, settledOn } from '../conductor/index';
import type { ConductorMemory } from '../conductor/index';
import type { BenchView } from '../conductor-types';
import type { Letter } from '../mailbox';
import type { Course } from './course';
import type { Strip, Strips } from './strips';

/** On whose behalf something is wanted. */
export interface Behalf {
  readonly by: PersonId;
  readonly via: CommandHead['via'];
  readonly role: Role;
  readonly intent: IntentId | null;
  /** Version of the batch the person saw; `null` for the program. */
  readonly expectedVersion: number | null;
  /** Asked again when the command's turn comes; absent: it cannot be withdrawn. */
  readonly withdrawn?: Letter['withdrawn'];
}

/** The program itself: the conductor upon readings and ticks, and the rules of alarm. */
export const OF_ITSELF: Behalf = { by: PROGRAM, via: 'bench', role: 'program', intent: null, expectedVersion: null };

/** What the bench knows at the moment of a decision. */
export interface Knowledge {
  readonly boot: BootId;
  readonly clock: Clock;
  readonly view: BenchView;
  readonly memory: ConductorMemory;
  readonly batch: BatchState | null;
  /** Newest check of each scale in any batch. */
  readonly checks: Readonly<Record<InstrumentId, EntryId>>;
  readonly strips: Strips;
  readonly course: Course;
  /** Unique for ever. */
  readonly newId: () => string;
}

/** A want as a command: who, when, and the observation from the server's own ring. A weight gets its scale's check and its strip. */
export const complete = (want: Want, batch: BatchId, { withdrawn, ...behalf }: Behalf, known: Knowledge): Letter => {
  const now = known.clock.now();
  const observation = observe(instrumentOf(want, known), known, now);
  const weighed = weighedIn(want);
  const strip = weighed === null ? null : known.strips.cut(weighed.instrument, now);
  const head: CommandHead = {
    ...behalf,
    batch,
    boot: known.boot,
    mono: Math.round(now),
    wall: Math.round(known.clock.wall()),
    offsetMin: Math.round(known.clock.offsetMinutes()),
    observation,
  };
  return {
    command: { ...head, ...evidenced(named(want, known), observation, strip, () => known.course.of(now)) },
    blobs: strip === null ? [] : [{ sha256: strip.sha256, kind: 'strip', bytes: strip.bytes }],
    withdrawn,
  };
};

const WEIGHS: ReadonlySet<Want['kind']> = new Set<Want['kind']>([
  'accept',
  'weigh-back',
  'split',
  'do-remedy-act',
  'part',
  'pour-mould',
  'weigh-left',
]);

/** The settled weight that it takes into the record. */
const weighedIn = (want: Want): Weighed | null =>
  WEIGHS.has(want.kind) ? ((want.body as { readonly weighed?: Weighed | null }).weighed ?? null) : null;

/** What is set aside may begin a batch: its id is ours to give. */
const named = (want: Want, { newId }: Knowledge): Want =>
  want.kind === 'do-remedy-act' ? { ...want, body: { ...want.body, begins: as<BatchId>(newId()) } } : want;

const evidenced = (want: Want, observation: Observation, strip: Strip | null, course: () => TemperatureCourse | null): Want => {
  if (want.kind === 'join') {
    const taken = course();
    return taken === null ? want : { ...want, body: { ...want.body, course: taken } };
  }
  const weighed = weighedIn(want);
  if (weighed === null) return want;
  const check = observation.checks[weighed.instrument] ?? null;
  return { ...want, body: { ...want.body, weighed: { ...weighed, check, strip: strip?.sha256 ?? null } } } as Want;
};

/** The scale a command speaks of: the one it names, else the one the open line is on. */
const instrumentOf = (want: Want, { batch, view }: Knowledge): InstrumentId | null => {
  const weighed = weighedIn(want);
  if (weighed !== null) return weighed.instrument;
  if ('instrument' in want.body && want.body.instrument !== null) return want.body.instrument;
  const open = batch === null || batch.open === null ? undefined : batch.lines[batch.open];
  return view.scales.find((scale) => scale.role === open?.plan.scale)?.id ?? null;
};

/** Settled by the conductor, and still to be believed at this moment: a scale that has gone silent or wild since is not. */
const settledNow = (instrument: InstrumentId, { view, memory }: Knowledge, now: Monotonic): Observation['settled'] => {
  const scale = view.scales.find(({ id }) => id === instrument);
  return scale?.freshness === 'fresh' && (scale.suspect ?? null) === null ? settledOn(memory, instrument, now) : null;
};

/** The moments it also remembers are no whole numbers, and no rule's. */
const heatOf = ({ first, highest }: LyeHeat): LyeHeat => ({ first, highest });

const observe = (instrument: InstrumentId | null, known: Knowledge, now: Monotonic): Observation => {
  const { view, batch, checks } = known;
  const probe = (use: string) => view.probes.find((p) => p.use === use)?.value ?? null;
  const capacity: Record<string, Milligrams> = {};
  for (const scale of view.scales) if (scale.capacity !== null) capacity[scale.id] = scale.capacity;
  const armed = batch !== null && (batch.status === 'weighing' || batch.status === 'joined') ? batch.id : null;
  return {
    settled: instrument === null ? null : settledNow(instrument, known, now),
    lye: probe('lye'),
    oils: probe('oils'),
    poured: pouredOn(known.memory, batch),
    // A milk stands where the lye will: in the liquid's vessel, with the lye's probe in it.
    milk: probe('lye'),
    lyeSeen: view.lyeSeen == null ? null : heatOf(view.lyeSeen),
    batter: probe('batter'),
    checks,
    scales: view.scales.map((scale) => scale.id),
    capacity,
    division: Object.fromEntries(view.scales.map((scale) => [scale.id, scale.division])),
    armed,
  };
};
