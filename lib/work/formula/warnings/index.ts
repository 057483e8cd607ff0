import type { Warning } from '../warning';
import { benchWarnings } from './bench';
import { lyeWarnings } from './lye';
import { soapWarnings } from './soap';
import type { Planning } from './warn';

const RANK = { must: 0, mind: 1, note: 2 } as const;

/** All warnings of a plan, what stops the batch first. */
export const warningsOf = (planning: Planning, earlier: readonly Warning[]): readonly Warning[] =>
  [...soapWarnings(planning), ...lyeWarnings(planning), ...benchWarnings(planning), ...earlier].toSorted(
    (a, b) => RANK[a.level] - RANK[b.level],
  );

export type { Planning } from './warn';
