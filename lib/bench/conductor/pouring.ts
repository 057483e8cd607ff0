import { settledFrame } from '#lib/measure/readings/settle';
import { mg } from '#lib/units/mass';
import type { Want, Weighed } from '#lib/work/batch/index';
import { hadIn, leftIn, leftOver, massOf, partTarget } from '#lib/work/batch/pouring/amounts';
import { jobName, type Job } from '#lib/work/batch/pouring/jobs';
import { emptyOf, potOf, zeroOf } from '#lib/work/batch/pouring/places';
import { standing as notStruck, type Container, type Source } from '#lib/work/batch/pouring/types';
import { as, type VesselId } from '#lib/units/id';
import type { ScaleView } from '../conductor-types';
import type { PortionCue } from '../cue';
import { weighedFrom } from './accept';
import { hindrance } from './hinder';
import { jobNow, sourcesNow } from './job';
import type { JobMemory, ScaleMemory } from './memory';
import { probeLeans } from './probe';
import { setScale, wantOnce, within, type Scene, type Scenery, type Words } from './stage';
import { isLoaded, threshold } from './zero';

/**
 * Joined batter is parted off, poured into moulds by turns, and what stays behind is weighed. A jug or a mould stands on the pan empty
 * first, which the record keeps, and is weighed against that whenever it stands there again; many pours by turns need no word between
 * them. What does not fit a scale is poured by what its jug loses, from a zero that is kept nowhere. Every amount is a person's to take.
 */
export const pouringScene = (stage: Scenery): Scene => {
  const now = jobNow(stage);
  if (now === null) return { phase: 'pouring-moulds', portion: { at: 'done', mass: null } };
  const { job, memory } = now;
  const from = sourcesNow(stage, job, memory);
  const base: Base = { stage, job, memory, from, about: { key: job.key, by: memory.by, name: jobName(stage.batch, job), from } };
  const view = viewFor(base);
  if (view === undefined) return sceneOf(base, { at: 'no-scale', mass: null });
  const scale = stage.memory.scales[view.id];
  const hindered = hindrance(stage, view, scale ?? null);
  if (scale === undefined || (hindered !== null && hindered !== 'late')) return hinderedScene(base, view, hindered === 'overload');
  const on: On = { ...base, view, scale };
  if (!isLoaded(scale, null)) return emptyPan(on);
  if (!memory.freed && isFromBefore(on)) return at(on, { at: 'clear', mass: null });
  if (memory.by === 'loss') return lossScene(on);
  return job.kind === 'left' ? leftScene(on, job.source) : gainScene(on, job.key as Container);
};

/** What stood there before this was begun counts for nothing, but for the very jug or pot that is to be weighed by its loss. */
const isFromBefore = (on: On): boolean => on.memory.by === 'gain' || (on.memory.zero === null && !mayBeSource(on));

/** It weighs about what the record has in it: a mould that stands there still must not be poured from. */
const mayBeSource = ({ stage: { batch }, scale, from: [source = 'pot'] }: On): boolean => {
  const { level } = scale.track;
  const most = leftIn(batch, source);
  const empty = emptyOf(batch, source);
  if (empty === null) return source === 'pot' && level > most;
  const byTurns = notStruck(batch.pour.pours).filter(({ from }) => from.length > 1 && from.includes(source));
  const slack = 0.03 * hadIn(batch, source) + 20_000;
  return level > empty + most - massOf(byTurns) - slack && level < empty + most + slack;
};

interface Base {
  readonly stage: Scenery;
  readonly job: Job;
  readonly memory: JobMemory;
  readonly from: readonly Source[];
  readonly about: NonNullable<PortionCue['job']>;
}
interface On extends Base {
  readonly view: ScaleView;
  readonly scale: ScaleMemory;
}

/** What stands on the pan for a job: a container, or the vessel batter is poured from. */
const vesselOf = ({ stage, job, memory, from }: Base): VesselId => {
  const source = job.kind === 'left' ? job.source : memory.by === 'loss' ? (from[0] ?? 'pot') : null;
  if (source === null) return as<VesselId>(job.key);
  return source === 'pot' ? (potOf(stage.batch)?.plan.id ?? as<VesselId>('pot')) : as<VesselId>(source);
};

const sceneOf = (base: Base, portion: Omit<PortionCue, 'job'>, more: Partial<Scene> = {}): Scene => ({
  phase: 'pouring-moulds',
  vessel: vesselOf(base),
  portion: { ...portion, job: base.about },
  ...more,
});

/** The scale a container was set down on; else the big one. */
const viewFor = ({ stage, job, memory }: Base): ScaleView | undefined => {
  const { scales } = stage.view;
  const set = job.kind !== 'left' && memory.by === 'gain' ? zeroOf(stage.batch, job.key as Container)?.instrument : undefined;
  return set === undefined ? (scales.find(({ role }) => role === 'main') ?? scales[0]) : scales.find(({ id }) => id === set);
};

const change = ({ stage, memory }: Base, next: Partial<JobMemory>): void => {
  stage.memory.job = { ...memory, ...next };
};

/** After anything that makes a gross weight doubtful the pan is to be seen free again, and a jug's own zero is gone. */
const hinderedScene = (base: Base, view: ScaleView, overload: boolean): Scene => {
  if (base.stage.memory.scales[view.id]?.stop != null) setScale(base.stage, view.id, { stop: null });
  change(base, { freed: false, zero: null });
  return sceneOf(base, { at: overload ? 'too-heavy' : 'no-scale', mass: null }, { instrument: view.id });
};

const emptyPan = (on: On): Scene => {
  if (!on.memory.freed) change(on, { freed: true });
  const begun =
    on.memory.by === 'loss' ? on.memory.zero !== null : on.job.kind !== 'left' && zeroOf(on.stage.batch, on.job.key as Container) !== null;
  return sceneOf(on, { at: begun ? 'off' : toSetDown(on), mass: null }, { instrument: on.view.id, say: setDownWords(on) });
};

const toSetDown = ({ memory, from: [source = 'pot'] }: On): PortionCue['at'] =>
  memory.by === 'gain' ? 'set-down' : source === 'pot' ? 'set-pot' : 'set-jug';

const setDownWords = ({ stage, about, view }: On): Words => ({
  key: `pouring ${about.key} ${about.by} ${about.from[0] ?? ''} ${stage.batch.pour.pours.length}`,
  code: 'set-down',
  params: { vessel: standsOnPan(stage, about), scale: view.role },
});

/** By its loss it is the jug, or the pot, that stands there. */
const standsOnPan = ({ batch }: Scenery, { by, from: [source = 'pot'], name }: On['about']): string =>
  by === 'loss' ? jobName(batch, { key: `left:${source}`, kind: 'left', source }) : name;

/** A settled weight stands and is not used up. */
const isSettled = ({ scale }: On): boolean => scale.track.stable && scale.window !== null;
/** What the newest reading says came in; a screen shows it while it moves as well. */
const netNow = ({ scale }: On, zero: number, sign: 1 | -1): number => sign * ((scale.track.masses.at(-1) ?? zero) - zero);

const at = (on: On, portion: Omit<PortionCue, 'job'>, more: Partial<Scene> = {}): Scene =>
  sceneOf(on, portion, { instrument: on.view.id, ...more });

const setContainer = ({ stage, view, scale }: On, container: Container): Want => ({
  kind: 'set-container',
  body: {
    container,
    instrument: view.id,
    gross: settledFrame(scale.track)?.gross ?? mg(Math.round(scale.track.level)),
    episode: scale.window?.episode ?? stage.memory.episode,
  },
});

/** Into what stands on the pan. */
const gainScene = (on: On, container: Container): Scene => {
  const { stage, scale } = on;
  const zero = zeroOf(stage.batch, container);
  if (zero === null) {
    if (isSettled(on) && stage.view.leased)
      wantOnce(stage, `container ${container} ${scale.window?.episode ?? 0}`, setContainer(on, container));
    return at(on, { at: 'settling', mass: null });
  }
  const net = netNow(on, zero.zero, 1);
  if (!isSettled(on)) return at(on, { at: 'moving', mass: shown(net) }, targetOf(on, net));
  // Lighter than it was empty: it is another one, and only a person knows.
  const anew = { code: 'count-from-here', hold: true, act: () => void stage.wants.push(setContainer(on, container)) } as const;
  if (net < -within(scale)) return at(on, { at: 'strange', mass: null }, { goOn: anew });
  if (net <= threshold(scale, null)) return at(on, { at: 'stands', mass: null }, targetOf(on, net));
  return offer(on, zero.zero, 1);
};

const shown = (net: number) => (net > 0 ? mg(Math.round(net)) : null);

/** A part has so much to get; the number counts down to it. */
const targetOf = ({ stage, job }: On, net: number): Partial<Scene> => {
  if (job.kind !== 'part') return {};
  const { mass } = partTarget(stage.batch, job.part);
  return { takeOut: { target: mass, tolerance: mg(Math.round(mass * PART_WITHIN)), taken: Math.max(0, net) } };
};
/** A part is within this of its target: its additives are weighed for what is really in it. Ours. */
const PART_WITHIN = 0.02;

/** More than there is left, and a little: a stranger stands there. */
const tooMuch = ({ stage }: On, net: number): boolean => net > 1.03 * leftOver(stage.batch) + 20_000;

const offer = (on: On, zero: number, sign: 1 | -1): Scene => {
  const { stage, view, scale, about } = on;
  const weighed = weighedFrom(stage.batch, view.id, scale, mg(Math.round(zero)), sign);
  if (weighed === null || weighed.net < 0) return at(on, { at: 'moving', mass: null });
  if (tooMuch(on, weighed.net)) return at(on, { at: 'strange', mass: null });
  return at(
    on,
    { at: 'offer', mass: weighed.net },
    {
      ...targetOf(on, weighed.net),
      goOn: { code: 'take-pour', hold: true, act: () => take(on, weighed) },
      say: { key: `poured ${about.key} ${weighed.episode}`, code: 'poured', params: { what: about.name, net: weighed.net } },
    },
  );
};

const take = (on: On, weighed: Weighed): void => {
  const { stage, job, from, memory } = on;
  const mass = weighed.net;
  if (job.kind === 'part') stage.wants.push({ kind: 'part', body: { part: job.part.id, mass, weighed } });
  if (job.kind === 'mould') stage.wants.push({ kind: 'pour-mould', body: { mould: job.mould.n, from, mass, weighed } });
  if (job.kind === 'left') stage.wants.push({ kind: 'weigh-left', body: { of: job.source, mass, weighed } });
  if (memory.by === 'loss') change(on, { zero: { instrument: on.view.id, gross: weighed.gross } });
};

/** Out of the one jug that stands on the pan. */
const lossScene = (on: On): Scene => {
  const { stage, memory, scale, view, from } = on;
  const pot = from[0] === 'pot' ? potOf(stage.batch) : null;
  if (pot !== null && probeLeans(stage, pot.plan)) return at(on, { at: 'probe', mass: null });
  const fromHere = (): void => change(on, { zero: { instrument: view.id, gross: settledFrame(scale.track)?.gross ?? scale.track.level } });
  const { zero } = memory;
  if (zero === null || zero.instrument !== view.id) {
    if (isSettled(on)) fromHere();
    return at(on, { at: isSettled(on) ? 'stands' : 'settling', mass: null });
  }
  const net = netNow(on, zero.gross, -1);
  if (!isSettled(on)) return at(on, { at: 'moving', mass: shown(net) }, targetOf(on, net));
  if (net < -within(scale)) return at(on, { at: 'more', mass: null }, { goOn: { code: 'count-from-here', hold: false, act: fromHere } });
  return net <= threshold(scale, null) ? at(on, { at: 'stands', mass: null }, targetOf(on, net)) : offer(on, zero.gross, -1);
};

/** What stayed in a vessel whose empty mass is known. */
const leftScene = (on: On, source: Source): Scene => {
  const empty = emptyOf(on.stage.batch, source);
  if (empty === null) return at(on, { at: 'no-scale', mass: null });
  if (!isSettled(on)) return at(on, { at: 'moving', mass: null });
  return netNow(on, empty, 1) < -within(on.scale) ? at(on, { at: 'strange', mass: null }) : offer(on, empty, 1);
};
