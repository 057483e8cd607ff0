import type { InstrumentId } from '#lib/units/id';
import { hadIn, leftIn, sourcesOf } from '#lib/work/batch/pouring/amounts';
import { emptyOf, potOf } from '#lib/work/batch/pouring/places';
import type { Source } from '#lib/work/batch/pouring/types';
import { own } from '#lib/work/batch/own';
import type { BatchState } from '#lib/work/batch/index';
import type { JobMemory, ScaleMemory, Stood } from './memory';
import { recognisedWithin, within } from './stage';

/**
 * Who stands on the pan when jugs are poured by their loss, by turns. `same`: the one that stood there before, as it was or lighter by what was
 * poured. `other`: it reads what another last stood at. `doubt`: both may be. `stranger`: it is none of them, or nobody can say.
 */
export type Jug = { readonly is: 'same' } | { readonly is: 'stranger' } | { readonly is: 'other' | 'doubt'; readonly source: Source };

/** Amounts of the record that a source had part in, crossed out or not: one more, and what it last stood at tells nothing. */
const touched = ({ pour }: BatchState, source: Source): number => pour.pours.filter(({ from }) => from.includes(source)).length;

/** What a source stands at now. `more`: amounts from it that are on their way into the record. */
export const standsAt = (batch: BatchState, source: Source, instrument: InstrumentId, gross: number, more = 0): Stood => ({
  instrument,
  gross,
  pours: touched(batch, source) + more,
  had: hadIn(batch, source),
});

/** What a source last stood at, if nothing came or went since that the record knows of. */
export const lastStood = (batch: BatchState, stood: JobMemory['stood'], source: Source): Stood | null => {
  const last = own<Source, Stood>(stood, source);
  return last !== undefined && last.pours === touched(batch, source) && last.had === hadIn(batch, source) ? last : null;
};

const stoodAt = (batch: BatchState, { stood }: JobMemory, source: Source, id: InstrumentId): number | null => {
  const last = lastStood(batch, stood, source);
  return last !== null && last.instrument === id ? last.gross : null;
};

/** By the record: what it weighs empty and what is in it, where nothing was poured from it by turns and unweighed. */
const expectedAt = (batch: BatchState, source: Source, id: InstrumentId): number | null => {
  const empty = emptyOf(batch, source);
  const there = source === 'pot' ? potOf(batch)?.standing?.instrument : batch.pour.set[source as keyof typeof batch.pour.set]?.instrument;
  const byTurns = batch.pour.pours.some(({ from, struck }) => struck === null && from.length > 1 && from.includes(source));
  return empty === null || byTurns || (there !== undefined && there !== id) ? null : empty + leftIn(batch, source);
};

/** Lighter than it was by no more than what was in it, give or take what scales and a scraper do. Ours, as in the rules. */
const mayBePoured = (batch: BatchState, source: Source, zero: number, scale: ScaleMemory): boolean => {
  const slack = 0.03 * hadIn(batch, source) + 20_000;
  const least = Math.max(emptyOf(batch, source) ?? 0, zero - leftIn(batch, source)) - slack;
  return scale.track.level <= zero + within(scale) && scale.track.level >= least;
};

/** Asked when something came to rest on the pan after it was free. @param zero what the jug poured from last stood at */
export const jugOnPan = (batch: BatchState, memory: JobMemory, now: Source, zero: number, id: InstrumentId, scale: ScaleMemory): Jug => {
  const reads = (gross: number | null): boolean => gross !== null && Math.abs(scale.track.level - gross) <= recognisedWithin(scale);
  const others = sourcesOf(batch).filter(
    (source) => source !== now && reads(stoodAt(batch, memory, source, id) ?? expectedAt(batch, source, id)),
  );
  const [source, more] = others;
  const same = mayBePoured(batch, now, zero, scale);
  if (source === undefined) return { is: same ? 'same' : 'stranger' };
  if (more !== undefined) return { is: 'stranger' };
  return { is: same ? 'doubt' : 'other', source };
};
