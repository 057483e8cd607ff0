import type { Decode } from './types';
import { QUESTION, endsWithUnit, isSpace, isUpper, scanDecimal, skipSpaces } from './tokens';

const CARET = 0x5e;
const LOWER_V = 0x76;

/**
 * `SI ?       18.5 kg`: the command echoed (one to three capitals), a marker (blank stable, `?` moving, `^` over, `v` under), the
 * mass right-justified with its sign, the unit. `S A`, `S I`, `S E` answer a command and state no weight. From a public instrument
 * manual, two pages of which differ by one column: tokens decide, never columns.
 */
export const echoMarker: Decode = (bytes, from, to, found) => {
  let at = from;
  while (at < to && isUpper(bytes[at])) at += 1;
  if (at === from || at - from > 3 || !isSpace(bytes, at, to)) return 'grammar';
  at = skipSpaces(bytes, at, to);
  if (at === to) return 'grammar';
  const marker = bytes[at];
  if (at + 1 === to && isAnswer(marker)) return 'declined';
  if (marker === CARET || marker === LOWER_V) {
    found.range = marker === CARET ? 'over' : 'under';
    return at + 1 === to ? null : outOfRange(bytes, at + 1, to, found);
  }
  found.motion = marker === QUESTION ? 'moving' : 'stable';
  if (marker === QUESTION) {
    if (!isSpace(bytes, at + 1, to)) return 'grammar';
    at = skipSpaces(bytes, at + 1, to);
  }
  const end = scanDecimal(bytes, at, to, found);
  if (end < 0) return 'bad-number';
  if (!isSpace(bytes, end, to)) return 'grammar';
  found.place = end - from;
  return endsWithUnit(bytes, end, to, found);
};

/** Accepted, not now, timed out. */
const isAnswer = (byte: number | undefined): boolean => byte === 0x41 || byte === 0x49 || byte === 0x45;

/** Behind `^` or `v`: blanks, or a number that is not read, or a unit, or both. */
const outOfRange: Decode = (bytes, from, to, found) => {
  if (!isSpace(bytes, from, to)) return 'grammar';
  const number = skipSpaces(bytes, from, to);
  const end = scanDecimal(bytes, number, to, found);
  const unit = skipSpaces(bytes, end < 0 ? number : end, to);
  return unit === to ? null : endsWithUnit(bytes, unit, to, found);
};
