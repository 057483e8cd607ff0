import { mg } from '#lib/units/mass';
import type { Weighed } from '#lib/work/batch/index';
import { leftOver, partTarget } from '#lib/work/batch/pouring/amounts';
import type { Job } from '#lib/work/batch/pouring/jobs';
import { potOf } from '#lib/work/batch/pouring/places';
import type { Source } from '#lib/work/batch/pouring/types';
import { as, type VesselId } from '#lib/units/id';
import type { ScaleView } from '../conductor-types';
import type { PortionCue } from '../cue';
import { weighedFrom } from './accept';
import { standsAt } from './jugs';
import type { JobMemory, ScaleMemory } from './memory';
import type { Scene, Scenery } from './stage';

export interface Base {
  readonly stage: Scenery;
  readonly job: Job;
  readonly memory: JobMemory;
  readonly from: readonly Source[];
  readonly about: NonNullable<PortionCue['job']>;
}
export interface On extends Base {
  readonly view: ScaleView;
  readonly scale: ScaleMemory;
}

/** What stands on the pan for a job: a container, or the vessel batter is poured from. */
const vesselOf = ({ stage, job, memory, from }: Base): VesselId => {
  const source = job.kind === 'left' ? job.source : memory.by === 'loss' ? (from[0] ?? 'pot') : null;
  if (source === null) return as<VesselId>(job.key);
  return source === 'pot' ? (potOf(stage.batch)?.plan.id ?? as<VesselId>('pot')) : as<VesselId>(source);
};

export const sceneOf = (base: Base, portion: Omit<PortionCue, 'job'>, more: Partial<Scene> = {}): Scene => ({
  phase: 'pouring-moulds',
  vessel: vesselOf(base),
  portion: { ...portion, job: base.about },
  ...more,
});

export const change = ({ stage, memory }: Base, next: Partial<JobMemory>): void => {
  stage.memory.job = { ...memory, ...next };
};

/** A settled weight stands and is not used up. */
export const isSettled = ({ scale }: On): boolean => scale.track.stable && scale.window !== null;
/** What the newest reading says came in; a screen shows it while it moves as well. */
export const netNow = ({ scale }: On, zero: number, sign: 1 | -1): number => sign * ((scale.track.masses.at(-1) ?? zero) - zero);

export const at = (on: On, portion: Omit<PortionCue, 'job'>, more: Partial<Scene> = {}): Scene =>
  sceneOf(on, portion, { instrument: on.view.id, ...more });

export const shown = (net: number) => (net > 0 ? mg(Math.round(net)) : null);

/** A part has so much to get; the number counts down to it. */
export const targetOf = ({ stage, job }: On, net: number): Partial<Scene> => {
  if (job.kind !== 'part') return {};
  const { mass } = partTarget(stage.batch, job.part);
  return { takeOut: { target: mass, tolerance: mg(Math.round(mass * PART_WITHIN)), taken: Math.max(0, net) } };
};
/** A part is within this of its target: its additives are weighed for what is really in it. Ours. */
const PART_WITHIN = 0.02;

/** More than there is left, and a little: a stranger stands there. */
const tooMuch = ({ stage }: On, net: number): boolean => net > 1.03 * leftOver(stage.batch) + 20_000;

export const offer = (on: On, zero: number, sign: 1 | -1): Scene => {
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
  if (memory.by === 'loss') change(on, countedFrom(on, from[0] ?? 'pot', weighed.gross, 1));
};

/** A jug stands there: what it loses from now on is counted. */
export const countedFrom = ({ stage: { batch }, view: { id }, memory: { stood } }: On, source: Source, gross: number, more = 0) => ({
  zero: { instrument: id, gross },
  off: false,
  stood: { ...stood, [source]: standsAt(batch, source, id, gross, more) },
});
