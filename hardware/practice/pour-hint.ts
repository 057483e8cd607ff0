import type { BenchCue } from '#lib/bench/cue';
import type { BatchState } from '#lib/work/batch/index';
import { leftIn, leftOver, partsMade } from '#lib/work/batch/pouring/amounts';
import { allJobs, jobsToDo } from '#lib/work/batch/pouring/jobs';
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

/** Jugs and moulds that can be fetched, with what the record has in them. */
export const pourShelf = (batch: BatchState | null): readonly ShelfVessel[] => {
  if (batch === null) return [];
  const { pour } = batch;
  const empty = (container: keyof typeof pour.set, usual: number): number => pour.set[container]?.gross ?? usual;
  const parts = (batch.plan.parts ?? []).map(({ id, name }): ShelfVessel => {
    const source = partSource(id);
    const contents = partsMade(batch).some((one) => one.id === id) ? Math.max(0, leftIn(batch, source)) : 0;
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

/** A mould planned without a mass gets its part of what is left. */
const shareOf = (batch: BatchState, planned: number | null): number => {
  const moulds = jobsToDo(batch).filter(({ kind }) => kind === 'mould').length;
  const share = leftOver(batch) / Math.max(1, moulds);
  return Math.round(Math.min(planned ?? share, (moulds > 1 ? 1 : LAST) * share));
};
/** A little clings to the pot. */
const LAST = 0.985;

export const jobHint = ({ portion, left }: BenchCue, batch: BatchState): JobHint | null => {
  const about = portion?.job;
  const job = about === undefined ? undefined : allJobs(batch).find(({ key }) => key === about.key);
  if (about === undefined || job === undefined) return null;
  const from = job.kind === 'left' ? [] : about.from.map((source) => vesselOf(batch, source));
  const amount = job.kind === 'part' ? (left ?? 0) : job.kind === 'mould' ? shareOf(batch, job.mould.mass) : 0;
  return { by: about.by, from, amount };
};

type Stirred = readonly { readonly from: string; readonly into: string }[];

/** Cups of what was weighed aside: stirred in once trace is there, what is a part's own into its jug. */
export const stirredIn = (batch: BatchState): Stirred => {
  const pot = potOf(batch);
  if (batch.joined === null || batch.trace.length === 0 || pot === null || batch.plan.moulds === undefined) return [];
  return Object.values(batch.vessels).flatMap(({ plan, holds }): Stirred => {
    const lines = Object.values(batch.lines).filter((line) => (holds[line.plan.id] ?? 0) > 0);
    if (plan.id === pot.plan.id || plan.use !== 'aside' || lines.length === 0 || lines.some(({ status }) => status !== 'closed')) return [];
    const part = lines.find((line) => line.plan.part !== undefined)?.plan.part;
    if (part === undefined) return [{ from: plan.id, into: pot.plan.id }];
    return partsMade(batch).some(({ id }) => id === part) ? [{ from: plan.id, into: partSource(part) }] : [];
  });
};
