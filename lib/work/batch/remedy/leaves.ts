import { outcomeAt } from '#lib/soap/poured/outcome';
import type { NamedLimit } from '#lib/soap/remedy/limits';
import { excessOf } from '#lib/soap/remedy/programme';
import type { LineId, VesselId } from '#lib/units/id';
import { own } from '../own';
import type { Bench } from './bench';
import type { RemedyClash } from './limits';
import { limitsOf } from './programme';
import { toComeOf } from './stand';

const PPM = 1e6;
const GRAM = 1000;
/** Last binary digits of a sum cross nothing. */
const HAIR = 1e-9;

/** By how much a limit is left by some masses, in what a person reads it in. */
const natural = (bench: Bench, { name, of, coefficients, most }: NamedLimit, grams: readonly number[]): Omit<RemedyClash, 'limit'> => {
  const { superfat, lye, fragrance, shares } = outcomeAt(bench.pot, grams);
  const { limits } = bench.pot;
  const nothing = { line: null, vessel: null } as const;
  const points = (value: number | null, bound: number): Omit<RemedyClash, 'limit'> => ({
    ...nothing,
    by: value === null ? 0 : Math.max(1, Math.round(Math.abs(value - bound) * PPM)),
    unit: 'ppm',
  });
  const excess = excessOf({ id: '', coefficients, most, safety: false }, grams);
  const line = of as LineId | null;
  const share = shares[bench.pot.lines.findIndex(({ id }) => id === of)] ?? null;
  const band = of === null ? undefined : limits.shares[of];
  switch (name) {
    case 'superfat-zero':
      return points(superfat, 0);
    case 'superfat-least':
      return points(superfat, limits.superfat?.[0] ?? 0);
    case 'superfat-most':
      return points(superfat, limits.superfat?.[1] ?? 0);
    case 'lye-weakest':
      return points(lye, limits.lye?.[0] ?? 0);
    case 'lye-strongest':
      return points(lye, limits.lye?.[1] ?? 0);
    case 'lye-dissolves':
      return points(lye, 0.5);
    case 'share-least':
      return { ...points(share, band?.[0] ?? 0), line };
    case 'share-most':
      return { ...points(share, band?.[1] ?? 0), line };
    case 'fragrance':
      return points(fragrance, 1);
    case 'alkali-split-least':
    case 'alkali-split-most':
      return { ...nothing, by: Math.max(1, Math.round(excess * GRAM)), unit: 'mg' };
    case 'moulds':
      return { ...nothing, by: Math.max(1, Math.round(excess * PPM)), unit: 'ppm' };
    case 'brim':
      return { line: null, vessel: of as VesselId, by: Math.max(1, Math.round(excess)), unit: 'ml' };
    case 'scale-capacity':
      break;
  }
  return { line: null, vessel: of as VesselId, by: Math.max(1, Math.round(excess * GRAM)), unit: 'mg' };
};

export const clashAt = (bench: Bench, limit: NamedLimit, grams: readonly number[]): RemedyClash => ({
  limit: limit.name,
  ...natural(bench, limit, grams),
});

/** Limits that some masses leave, those of safety first. Exact: volumes are taken at these masses. */
export const leftBy = (bench: Bench, grams: readonly number[]): readonly RemedyClash[] =>
  limitsOf(bench, grams, true)
    .filter((limit) => excessOf(limit, grams) > HAIR * Math.max(1, Math.abs(limit.most)))
    .map((limit) => clashAt(bench, limit, grams));

export const isUnsafe = ({ limit }: RemedyClash): boolean => limit === 'superfat-zero' || limit === 'lye-dissolves';

/** Lines still to come of which there is less than their target asks for. */
export const lacking = ({ stands, facts }: Bench): readonly RemedyClash[] =>
  stands.flatMap((stand): readonly RemedyClash[] => {
    const by = toComeOf(stand) - (own(facts.stock, stand.id) ?? Number.POSITIVE_INFINITY);
    return by > 0 ? [{ limit: 'stock', line: stand.id, vessel: null, by, unit: 'mg' }] : [];
  });
