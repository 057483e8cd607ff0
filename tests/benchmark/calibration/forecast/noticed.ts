import { quantile } from '../interval';
import type { Noticed } from './tally';

/** Classes of an act by the K that it changes in twenty minutes: from, below. */
const CLASSES: readonly (readonly [from: number, below: number])[] = [
  [0, 0.5],
  [0.5, 1],
  [1, 2],
  [2, 3],
  [3, Number.POSITIVE_INFINITY],
];
const WIDTH = 22;

const head = ([from, below]: readonly [number, number]): string =>
  below === Number.POSITIVE_INFINITY ? `${from} K or more` : `${from}–${below} K`;

const cell = (all: readonly Noticed[]): string => {
  if (all.length === 0) return '';
  const after = all.map((one) => one.after).filter((seconds) => seconds < Number.POSITIVE_INFINITY);
  if (after.length === 0) return `0 of ${all.length}`;
  return `${after.length} of ${all.length}, ${quantile(after, 0.5).toFixed(0)}/${quantile(after, 0.9).toFixed(0)} s`;
};

/** What was done, by how much it matters: how often it was noticed within twenty minutes, and after how long (median, nine in ten). */
export const noticedTable = (noticed: ReadonlyMap<string, readonly Noticed[]>): readonly string[] => [
  `${''.padEnd(14)}${CLASSES.map((one) => head(one).padStart(WIDTH)).join('')}`,
  ...[...noticed]
    .toSorted(([a], [b]) => a.localeCompare(b))
    .map(([kind, all]) => {
      const cells = CLASSES.map(([from, below]) => cell(all.filter(({ change }) => change >= from && change < below)).padStart(WIDTH));
      return `${kind.padEnd(14)}${cells.join('')}`;
    }),
];
