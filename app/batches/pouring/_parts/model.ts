import { changeOf } from '#lib/work/history/change';
import { controlChart } from '#lib/work/history/chart';
import type { ControlChart, Signal } from '#lib/work/history/chart';
import type { BatchPoints } from '#lib/work/history/points';
import { messages } from '../messages';

/** One quantity over many batches, in their order: batches that do not have it are left out. */
export interface Series {
  readonly marks: readonly string[];
  readonly values: readonly number[];
  readonly chart: ControlChart | null;
}

export const seriesOf = (batches: readonly BatchPoints[], valueOf: (batch: BatchPoints) => number | null): Series => {
  const points = batches.flatMap((batch) => {
    const value = valueOf(batch);
    return value === null ? [] : [{ mark: batch.mark, value }];
  });
  const values = points.map(({ value }) => value);
  return { marks: points.map(({ mark }) => mark), values, chart: controlChart(values) };
};

/** How far one material ended from its target, in tolerances; on one scale or on whichever. */
export const lineSeries = (batches: readonly BatchPoints[], material: string, scale: string | null): Series =>
  seriesOf(batches, ({ lines }) => {
    const found = lines.find((line) => line.material === material && (scale === null || line.scale === scale));
    return found === undefined ? null : found.away / 1000;
  });

/** Materials by how many batches they were weighed in, then by the alphabet. */
export const materialsIn = (batches: readonly BatchPoints[]): readonly string[] => {
  const counts = new Map<string, number>();
  for (const { lines } of batches) for (const { material } of lines) counts.set(material, (counts.get(material) ?? 0) + 1);
  return [...counts].toSorted(([a, n], [b, m]) => m - n || a.localeCompare(b)).map(([material]) => material);
};

export const scalesIn = (batches: readonly BatchPoints[]): readonly string[] => [
  ...new Set(batches.flatMap(({ lines }) => lines.flatMap(({ scale }) => scale ?? []))),
];

/** Lines whose newest batches lie elsewhere than those before, the furthest first. */
export const movedIn = (
  batches: readonly BatchPoints[],
  materials: readonly string[],
): readonly { readonly material: string; readonly by: number }[] =>
  materials
    .flatMap((material) => {
      const change = changeOf(lineSeries(batches, material, null).values);
      return change === null ? [] : [{ material, by: change.newest - change.before }];
    })
    .toSorted((a, b) => Math.abs(b.by) - Math.abs(a.by));

/** A signal in words. */
export const signalText = ({ rule, at, side }: Signal, marks: readonly string[]): string => {
  const words = messages.sides[side];
  return messages.signals.at(marks[at] ?? '', messages.rules[rule](rule === 'one-beyond-three' ? words.limit : words.mean));
};
