import type { Decode } from './types';
import { QUESTION, isLetter, isSpace, scanDecimal, skipSpaces, skipToken, unitOf } from './tokens';

const LONGEST_LEGEND = 10;

/**
 * `      0.01 g     ?`: the weight right-justified in ten, the unit left-justified in up to five, `?` while moving and blank when
 * stable, then a legend of up to ten letters, which is not interpreted. From a public instrument manual. It gives no frame for
 * overload: whatever else the instrument shows then is no weight.
 */
export const rightQuery: Decode = (bytes, from, to, found) => {
  const end = scanDecimal(bytes, skipSpaces(bytes, from, to), to, found);
  if (end < 0) return 'bad-number';
  if (!isSpace(bytes, end, to)) return 'grammar';
  found.place = end - from;
  const unit = skipSpaces(bytes, end, to);
  let at = skipToken(bytes, unit, to);
  found.unit = unitOf(bytes, unit, at);
  if (found.unit === null) return 'unknown-unit';
  at = skipSpaces(bytes, at, to);
  found.motion = 'stable';
  if (at < to && bytes[at] === QUESTION) {
    found.motion = 'moving';
    at = skipSpaces(bytes, at + 1, to);
  }
  return isLegend(bytes, at, to) ? null : 'grammar';
};

const isLegend = (bytes: Uint8Array, from: number, to: number): boolean => {
  let at = from;
  while (at < to && isLetter(bytes[at])) at += 1;
  return at - from <= LONGEST_LEGEND && skipSpaces(bytes, at, to) === to;
};
