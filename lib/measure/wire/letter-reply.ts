import type { Decode } from './types';
import { MINUS, PLUS, SPACE, endsWithUnit, isSpace, scanDecimal, skipSpaces } from './tokens';

const S = 0x53;
const D = 0x44;
const I = 0x49;

/**
 * `S S     100.00 g`: the letter S, a status, the weight right-justified in ten, the unit. Status S stable, D moving, `+` over and
 * `-` under without a weight, I cannot be done now. The layout is from memory; older spellings of it exist and are refused.
 */
export const letterReply: Decode = (bytes, from, to, found) => {
  if (to - from < 3 || bytes[from] !== S || bytes[from + 1] !== SPACE) return 'grammar';
  const status = bytes[from + 2];
  const rest = skipSpaces(bytes, from + 3, to);
  if (rest === to) {
    if (status === I) return 'declined';
    if (status !== PLUS && status !== MINUS) return 'grammar';
    found.range = status === PLUS ? 'over' : 'under';
    return null;
  }
  if ((status !== S && status !== D) || rest === from + 3) return 'grammar';
  const end = scanDecimal(bytes, rest, to, found);
  if (end < 0) return 'bad-number';
  if (!isSpace(bytes, end, to)) return 'grammar';
  found.place = end - from;
  found.motion = status === S ? 'stable' : 'moving';
  return endsWithUnit(bytes, end, to, found);
};
