import type { Figured, Narrowing, PouredSuperfat, WidthPart } from '#lib/soap/poured/types';
import type { LineId } from '#lib/units/id';
import type { AsPoured, LimitCheck } from './types';

/**
 * A batch as poured, for a line of the record and for paper: whole numbers and texts. Shares, superfat and chances in millionths, volume
 * in thousandths of a cm³. A closed batch keeps it with the method that made it.
 */
export interface PouredResult {
  readonly method: string;
  readonly superfat: SuperfatResult | null;
  readonly lye: ResultFigure | null;
  readonly shares: readonly { readonly line: LineId; readonly figure: ResultFigure }[];
  /** Fragrance ÷ fats. */
  readonly load: ResultFigure | null;
  /** Σ cᵢ/Lᵢ; 1,000,000 is the limit. */
  readonly fragrance: ResultFigure | null;
  readonly unlimited: readonly string[];
  readonly volume: ResultFigure | null;
  readonly full: ResultFigure | null;
  readonly limits: readonly ResultLimit[];
}

export interface ResultFigure {
  readonly value: number;
  readonly u: number;
  readonly low: number;
  readonly high: number;
}

export interface SuperfatResult extends ResultFigure {
  readonly working: number;
  readonly worst: { readonly low: number; readonly high: number };
  readonly lyeHeavy: number;
  readonly parts: readonly (Pick<WidthPart, 'what' | 'of' | 'name'> & { readonly share: number; readonly half: number })[];
  readonly narrowing: readonly (Pick<Narrowing, 'by' | 'of' | 'name'> & { readonly from: number; readonly to: number })[];
}

export interface ResultLimit {
  readonly what: LimitCheck['what'];
  readonly line: LineId | null;
  readonly low: number | null;
  readonly high: number | null;
  readonly verdict: LimitCheck['verdict'];
}

const MILLION = 1e6;
const CUBIC = 1e3;

/** No negative zero stands in a sealed line. */
const whole = (value: number, times: number): number => Math.round(value * times) || 0;
const share = (value: number): number => whole(value, MILLION);

const figure = (of: Figured | null, times = MILLION): ResultFigure | null =>
  of === null ? null : { value: whole(of.value, times), u: whole(of.u, times), low: whole(of.low, times), high: whole(of.high, times) };

const superfat = (of: PouredSuperfat | null): SuperfatResult | null => {
  const figured = figure(of);
  if (of === null || figured === null) return null;
  return {
    ...figured,
    working: share(of.working),
    worst: { low: share(of.worst.low), high: share(of.worst.high) },
    lyeHeavy: share(of.lyeHeavy),
    parts: of.parts.map((part) => ({ what: part.what, of: part.of, name: part.name, share: share(part.share), half: share(part.half) })),
    narrowing: of.narrowing.map(({ by, of: whose, name, from, to }) => ({ by, of: whose, name, from: share(from), to: share(to) })),
  };
};

export const resultOf = (poured: AsPoured): PouredResult => ({
  method: poured.method,
  superfat: superfat(poured.superfat),
  lye: figure(poured.lye),
  shares: poured.shares.flatMap((one, at) => {
    const [figured, line] = [figure(one), poured.pot.lines[at]];
    return figured === null || line === undefined ? [] : [{ line: line.id as LineId, figure: figured }];
  }),
  load: figure(poured.load),
  fragrance: figure(poured.fragrance),
  unlimited: poured.unlimited,
  volume: figure(poured.volume, CUBIC),
  full: figure(poured.full),
  limits: poured.limits.map(({ what, line, low, high, verdict }) => ({
    what,
    line,
    low: low === null ? null : share(low),
    high: high === null ? null : share(high),
    verdict,
  })),
});
