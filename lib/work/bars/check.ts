import { numberOf } from '../formula/index';
import type { Said } from '../orders/check';
import type { CureKept, CutterKept, UnmouldKept } from './documents';

/** mm. Nothing on a bench is longer. */
const LONGEST = 10_000;

const length = (path: string, typed: string | null, least: number): readonly Said[] => {
  const mm = typed === null ? null : numberOf(typed);
  return mm !== null && mm >= least && mm <= LONGEST ? [] : [{ path, says: 'A length in millimetres, as a number.' }];
};

const LEAST_GAP = 1;

/** What cannot be so of a cutter; nothing when it may be kept. */
export const checkCutter = ({ kind, wires, gap, kerf, least, most, trim }: CutterKept): readonly Said[] => {
  const common = [...length('kerf', kerf, 0), ...length('trim', trim, 0)];
  if (kind === 'fixed')
    return [...common, ...(wires === null ? [{ path: 'wires', says: 'How many wires there are.' }] : []), ...length('gap', gap, LEAST_GAP)];
  const ends = [...length('least', least, LEAST_GAP), ...length('most', most, LEAST_GAP)];
  if (ends.length > 0) return [...common, ...ends];
  const turned = (numberOf(least ?? '') ?? 0) > (numberOf(most ?? '') ?? 0);
  return [...common, ...(turned ? [{ path: 'most', says: 'The thickest bar is no thinner than the thinnest.' }] : [])];
};

/** A rule asks for days, for a loss per week, or for both. */
export const checkCure = ({ days, perWeek }: CureKept): readonly Said[] => {
  if (days === null && perWeek === null) return [{ path: 'days', says: 'A rule asks for days, for a loss a week, or for both.' }];
  const percent = perWeek === null ? 1 : (numberOf(perWeek) ?? 0);
  return percent > 0 && percent < 100 ? [] : [{ path: 'perWeek', says: 'A loss a week in per cent of the weight when cut, above 0.' }];
};

export const checkUnmould = ({ from, to, latestCut }: UnmouldKept): readonly Said[] => [
  ...(from !== null && to !== null && to < from ? [{ path: 'to', says: 'It ends before it begins.' }] : []),
  ...(from !== null && latestCut !== null && latestCut < from
    ? [{ path: 'latestCut', says: 'It would have to be cut before it comes out of its mould.' }]
    : []),
];
