import { allJobs, jobsToDo, usualSources, type Job } from '#lib/work/batch/pouring/jobs';
import { sourcesOf } from '#lib/work/batch/pouring/amounts';
import { mouldContainer, partSource, type JobKey, type Source } from '#lib/work/batch/pouring/types';
import type { BatchState } from '#lib/work/batch/index';
import type { ConductorEvent } from '../conductor-types';
import { lastStood } from './jugs';
import type { JobMemory } from './memory';
import type { Scenery } from './stage';

/** How many amounts of a job there are in the record, crossed out or not. */
const amountsOf = ({ pour }: BatchState, key: JobKey): number =>
  pour.parts.filter(({ id }) => partSource(id) === key).length +
  pour.pours.filter(({ mould }) => mouldContainer(mould) === key).length +
  pour.left.filter(({ of }) => `left:${of}` === key).length;

/** A person chooses what is done next; what stands on the pan from before counts for nothing. */
export const chooseJob = (stage: Scenery, { job: key, by, from }: Extract<ConductorEvent, { kind: 'job' }>): void => {
  if (!allJobs(stage.batch).some((job) => job.key === key)) return;
  const stood = stage.memory.job?.stood ?? {};
  const zero = by === 'loss' && from?.length === 1 ? lastStood(stage.batch, stood, from[0] as Source) : null;
  stage.memory.job = { key, by, chosen: true, from, had: amountsOf(stage.batch, key), freed: false, zero, off: zero !== null, stood };
};

/** What is done now: what a person chose, else the first that is still to do; `null`: all is done. */
export const jobNow = (stage: Scenery): { readonly job: Job; readonly memory: JobMemory } | null => {
  const { memory, batch } = stage;
  const todo = jobsToDo(batch);
  const known = memory.job;
  const chosen = known?.chosen === true ? allJobs(batch).find(({ key }) => key === known.key) : undefined;
  // Chosen, and weighed since: it is done. By a jug's loss more may follow into a mould.
  const more = known?.by === 'loss' && chosen?.kind === 'mould';
  const over = known !== null && !more && amountsOf(batch, known.key) > known.had;
  const job = chosen !== undefined && !over ? chosen : todo[0];
  if (job === undefined) return null;
  const same = known !== null && known.key === job.key && !over;
  const anew = { by: 'gain', chosen: false, from: null, freed: false, zero: null, off: false } as const;
  const kept: JobMemory = same ? known : { key: job.key, had: amountsOf(batch, job.key), ...anew, stood: known?.stood ?? {} };
  memory.job = kept;
  return { job, memory: kept };
};

/** From where it is poured: what a person said, where that is there, else as it is usual. */
export const sourcesNow = ({ batch }: Scenery, job: Job, { from, by }: JobMemory): readonly Source[] => {
  if (job.kind === 'left') return [job.source];
  if (job.kind === 'part') return ['pot'];
  const there = sourcesOf(batch);
  const said = (from ?? usualSources(batch, job.mould)).filter((one) => there.includes(one));
  const known: readonly Source[] = said.length === 0 ? ['pot'] : said;
  return by === 'loss' ? known.slice(0, 1) : known;
};
