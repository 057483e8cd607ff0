import type { Figured, Pot, PouredFigures } from '#lib/soap/poured/types';
import type { LineId } from '#lib/units/id';
import type { LimitCheck } from './types';

/** What a formula stays inside by a rounding counts as inside. */
const HAIR = 1e-9;

const verdictOf = ({ value, low, high }: Figured, from: number | null, to: number | null): LimitCheck['verdict'] => {
  if ((from !== null && value < from - HAIR) || (to !== null && value > to + HAIR)) return 'outside';
  return (from !== null && low < from - HAIR) || (to !== null && high > to + HAIR) ? 'check' : 'inside';
};

const check = (
  what: LimitCheck['what'],
  figure: Figured | null,
  from: number | null,
  to: number | null,
  line: LineId | null = null,
): readonly LimitCheck[] => (figure === null ? [] : [{ what, line, figure, low: from, high: to, verdict: verdictOf(figure, from, to) }]);

/**
 * Every result that has a limit, beside it. Superfat by its working value, as it was aimed at: what its materials may be off by shows as
 * `check`, and below zero it is held wherever the formula's limits stand.
 */
export const limitChecks = (pot: Pot, { superfat, lye, shares, fragrance, full }: PouredFigures): readonly LimitCheck[] => {
  const { limits } = pot;
  const aimed = superfat === null ? null : { ...superfat, value: superfat.working };
  return [
    ...check('superfat', aimed, limits.superfat?.[0] ?? null, limits.superfat?.[1] ?? null),
    ...check('lye', lye, limits.lye?.[0] ?? null, limits.lye?.[1] ?? null),
    ...pot.lines.flatMap(({ id }, at) => {
      const band = limits.shares[id];
      return band === undefined ? [] : check('share', shares[at] ?? null, band[0], band[1], id as LineId);
    }),
    ...(pot.lines.some(({ part }) => part === 'fragrance') ? check('fragrance', fragrance, null, 1) : []),
    ...check('full', full, null, 1),
  ];
};
