import type { InstrumentId, LineId, PersonId } from '#lib/units/id';
import type { Entry } from '../batch/index';
import type { BatchReview, ReviewLine } from '../batch/review';

/** What one finished batch adds to a picture of many. Whole numbers. */
export interface BatchPoints {
  readonly batch: string;
  readonly mark: string;
  /** Wall time of its beginning, ms. */
  readonly wall: number;
  readonly formula: string;
  /** From its beginning to its close, in seconds. */
  readonly seconds: number;
  readonly lines: readonly LinePoint[];
  /** Superfat as poured at the working values, millionths, and what the formula allows; `null` where it was not worked out. */
  readonly superfat: { readonly value: number; readonly low: number | null; readonly high: number | null } | null;
  readonly stops: readonly StopPoint[];
}

export interface LinePoint {
  readonly line: LineId;
  readonly material: string;
  /** The scale it was weighed on; `null`: by hand, or on several. */
  readonly scale: InstrumentId | null;
  /** Actual − target in thousandths of a tolerance. */
  readonly away: number;
}

/** One pour that ended after the bench had said "ease off"; masses in mg. */
export interface StopPoint {
  readonly hand: PersonId;
  readonly material: string;
  /** What still came in after the word. */
  readonly came: number;
  /** Where the line ended, from its target. */
  readonly ended: number;
  readonly tolerance: number;
}

/** `null` of a batch that was not finished: what it would have come to nobody knows. */
export const pointsOf = (review: BatchReview, entries: readonly Entry[]): BatchPoints | null => {
  const { summary, formula, lines, poured } = review;
  if (summary.status !== 'closed' || summary.endedWall === null) return null;
  const superfat = poured.kind === 'figures' ? poured.result.superfat : null;
  const limit = poured.kind === 'figures' ? poured.result.limits.find(({ what }) => what === 'superfat') : undefined;
  return {
    batch: summary.id,
    mark: summary.mark,
    wall: summary.startedWall,
    formula: formula.name,
    seconds: Math.round((summary.endedWall - summary.startedWall) / 1000),
    lines: lines.filter(({ status }) => status === 'closed').map(linePoint),
    superfat: superfat === null ? null : { value: superfat.working, low: limit?.low ?? null, high: limit?.high ?? null },
    stops: stopsIn(lines, entries),
  };
};

const linePoint = ({ line, material, away, contributions }: ReviewLine): LinePoint => {
  const scales = new Set(contributions.flatMap(({ struck, instrument }) => (struck === null ? [instrument] : [])));
  const [scale = null] = scales;
  return { line, material, away, scale: scales.size === 1 ? scale : null };
};

/** Only where one pour made the line: of several the word at one of them says nothing of the end. */
const stopsIn = (lines: readonly ReviewLine[], entries: readonly Entry[]): readonly StopPoint[] =>
  entries.flatMap((entry) => {
    if (entry.kind !== 'weight-accepted' || entry.body.eased === undefined) return [];
    const line = lines.find((one) => one.line === entry.body.line);
    const counting = line?.contributions.filter(({ struck }) => struck === null) ?? [];
    if (line === undefined || counting.length !== 1 || counting[0]?.entry !== entry.id) return [];
    const { eased, weighed } = entry.body;
    return [
      { hand: eased.hand, material: line.material, came: weighed.net - eased.net, ended: line.difference, tolerance: line.tolerance },
    ];
  });
