import type { BatchState } from '../state';
import { partsMade, sourcesOf } from './amounts';
import { emptyOf, mouldsIn, potOf } from './places';
import { mouldContainer, partSource, standing, type JobKey, type PlanMould, type PlanPart, type Source } from './types';

/** Something to do with joined batter, with what it is about. */
export type Job =
  | { readonly key: JobKey; readonly kind: 'part'; readonly part: PlanPart }
  | { readonly key: JobKey; readonly kind: 'mould'; readonly mould: PlanMould }
  | { readonly key: JobKey; readonly kind: 'left'; readonly source: Source };

/** Everything that can be done, whether or not it has been, in the order of work. */
export const allJobs = (state: BatchState): readonly Job[] => [
  ...(state.plan.parts ?? []).map((part): Job => ({ key: partSource(part.id), kind: 'part', part })),
  ...mouldsIn(state).map((mould): Job => ({ key: mouldContainer(mould.n), kind: 'mould', mould })),
  ...sourcesOf(state).map((source): Job => ({ key: `left:${source}`, kind: 'left', source })),
];

const isDone = (state: BatchState, job: Job, filled: ReadonlySet<number>): boolean => {
  if (job.kind === 'part') return partsMade(state).some(({ id }) => id === job.part.id);
  if (job.kind === 'mould') return filled.has(job.mould.n);
  // What nobody has weighed empty cannot be weighed back.
  return emptyOf(state, job.source) === null || standing(state.pour.left).some(({ of }) => of === job.source);
};

/** Moulds that something was poured into; portions of the pot stand for the first of the others. Asked with every frame of a scale. */
const filledIn = (state: BatchState): ReadonlySet<number> => {
  const poured = new Set(standing(state.pour.pours).map(({ mould }) => mould));
  const others = mouldsIn(state).flatMap(({ n }) => (poured.has(n) ? [] : [n]));
  return new Set([...poured, ...others.slice(0, state.parts.length)]);
};

/** What is still to do, in the order of work: parts, then moulds, then what stayed behind. */
export const jobsToDo = (state: BatchState): readonly Job[] => {
  const filled = filledIn(state);
  return allJobs(state).filter((job) => !isDone(state, job, filled));
};

/** From where a mould is poured unless a person says otherwise: a plain one from the pot, any other pattern from every jug there is. */
export const usualSources = (state: BatchState, { pattern }: PlanMould): readonly Source[] =>
  pattern === 'plain-pour' || pattern === null ? ['pot'] : sourcesOf(state);

/** What a job is about by name, as data: "26-11/1 Log", "Green", "oils pot". */
export const jobName = (state: BatchState, job: Job): string => {
  if (job.kind === 'part') return job.part.name;
  if (job.kind === 'mould') return `${state.mark}/${job.mould.n} ${job.mould.name}`;
  if (job.source === 'pot') return potOf(state)?.plan.name ?? 'pot';
  return partsMade(state).find(({ id }) => partSource(id) === job.source)?.name ?? job.source;
};
