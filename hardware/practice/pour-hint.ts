import type { BenchCue } from '#lib/bench/cue';
import type { BatchState } from '#lib/work/batch/index';
import { hadIn, leftIn, leftOver, partsMade, sourcesOf } from '#lib/work/batch/pouring/amounts';
import { allJobs, jobsToDo, usualSources } from '#lib/work/batch/pouring/jobs';
import { mouldsIn, potOf } from '#lib/work/batch/pouring/places';
import { mouldContainer, partSource, standing, type Source } from '#lib/work/batch/pouring/types';
import type { ShelfVessel } from './shelf-vessel';

/** What a maker does with joined batter. Masses in mg, vessels by their ids on the shelf. */
export interface JobHint {
  readonly by: 'gain' | 'loss';
  readonly from: readonly string[];
  /** How much is poured. */
  readonly amount: number;
}

/** A jug for a part and a silicone mould, empty, mg. */
const JUG = 210_000;
const MOULD = 350_000;

/** After a restart: of what was poured by turns each source gave as much of its own as the others. */
const stillIn = (batch: BatchState, source: Source): number => {
  const all = sourcesOf(batch).reduce((sum, one) => sum + hadIn(batch, one), 0);
  return all > 0 ? Math.max(0, Math.round((hadIn(batch, source) * leftOver(batch)) / all)) : 0;
};

/** What the pot still holds, where the record leads the pouring: its own sum is of what was joined. */
export const potStill = (batch: BatchState, joined: number): number =>
  batch.plan.moulds === undefined || batch.pour.pours.length + batch.pour.parts.length === 0 ? joined : stillIn(batch, 'pot');

/** Jugs and moulds that can be fetched, with what the record has in them. */
export const pourShelf = (batch: BatchState | null): readonly ShelfVessel[] => {
  if (batch === null) return [];
  const { pour } = batch;
  const empty = (container: keyof typeof pour.set, usual: number): number => pour.set[container]?.gross ?? usual;
  const parts = (batch.plan.parts ?? []).map(({ id, name }): ShelfVessel => {
    const source = partSource(id);
    const contents = partsMade(batch).some((one) => one.id === id) ? stillIn(batch, source) : 0;
    return { id: source, name: `${name} jug`, use: 'aside', empty: empty(source, JUG), contents };
  });
  const moulds = mouldsIn(batch).map(({ n, name }): ShelfVessel => {
    const container = mouldContainer(n);
    const poured = standing(pour.pours).reduce((sum, { mould, mass }) => (mould === n ? sum + mass : sum), 0);
    return { id: container, name, use: 'aside', empty: empty(container, MOULD), contents: poured };
  });
  return [...parts, ...moulds];
};

const vesselOf = (batch: BatchState, source: Source): string => (source === 'pot' ? (potOf(batch)?.plan.id ?? 'pot') : source);

/** Each mould gets its part of every jug it is poured from, and no more than was planned; a little clings to the last. */
const shareOf = (batch: BatchState, planned: number | null, from: readonly Source[]): number => {
  const moulds = jobsToDo(batch).flatMap((job) => (job.kind === 'mould' ? [usualSources(batch, job.mould)] : []));
  const share = from.reduce((sum, source) => {
    const others = Math.max(1, moulds.filter((sources) => sources.includes(source)).length);
    return sum + ((others > 1 ? 1 : LAST) * leftIn(batch, source)) / others;
  }, 0);
  return Math.round(Math.min(planned ?? share, share));
};
const LAST = 0.985;

export const jobHint = ({ portion, left }: BenchCue, batch: BatchState): JobHint | null => {
  const about = portion?.job;
  const job = about === undefined ? undefined : allJobs(batch).find(({ key }) => key === about.key);
  if (about === undefined || job === undefined) return null;
  const from = job.kind === 'left' ? [] : about.from.map((source) => vesselOf(batch, source));
  const amount = job.kind === 'part' ? (left ?? 0) : job.kind === 'mould' ? shareOf(batch, job.mould.mass, about.from) : 0;
  return { by: about.by, from, amount };
};

type Stirred = readonly { readonly from: string; readonly into: string }[];

/** Cups of what was weighed aside: stirred in once trace is there, what is a part's own into its jug. */
export const stirredIn = (batch: BatchState): Stirred => {
  const pot = potOf(batch);
  if (batch.joined === null || batch.trace.length === 0 || pot === null || batch.plan.moulds === undefined || batch.pour.pours.length > 0)
    return [];
  return Object.values(batch.vessels).flatMap(({ plan, holds }): Stirred => {
    const lines = Object.values(batch.lines).filter((line) => (holds[line.plan.id] ?? 0) > 0);
    if (plan.id === pot.plan.id || plan.use !== 'aside' || lines.length === 0 || lines.some(({ status }) => status !== 'closed')) return [];
    const part = lines.find((line) => line.plan.part !== undefined)?.plan.part;
    if (part === undefined) return [{ from: plan.id, into: pot.plan.id }];
    return partsMade(batch).some(({ id }) => id === part) ? [{ from: plan.id, into: partSource(part) }] : [];
  });
};
