import type { Forecast, Outlook } from '../cooling/types';
import { actsFor } from './acts';
import { againstAt } from './against';
import { firstMeetings } from './first';
import { pathsOf, poured } from './paths';
import { settingSoon } from './setting';
import type { Meeting, Terms, ToCome, When } from './types';
import { whenOf } from './when';

/**
 * When lye and oils meet, both inside the window and within the allowed difference, and what would bring that about. Both outlooks of the
 * same moment. What is still to be poured into the pot counts as poured when they are joined: the pot cools on as it does now, and a
 * heavier one would cool more slowly.
 */
export const meetingOf = (lye: Outlook, oils: Outlook, terms: Terms, toCome: ToCome | null): Meeting => {
  if (lye.kind === 'none' || oils.kind === 'none') {
    return { kind: 'none', lye: lye.kind === 'none' ? lye.why : null, oils: oils.kind === 'none' ? oils.why : null };
  }
  const pot = oils.ahead.map(({ after, low, middle, high }) => ({
    after,
    low: poured(low, toCome),
    middle: poured(middle, toCome),
    high: poured(high, toCome),
  }));
  const against = againstAt(terms, lye.ahead[0]?.middle ?? Number.NaN, pot[0]?.middle ?? Number.NaN);
  const first = (of: Terms, holds: boolean): When =>
    holds ? whenOf(firstMeetings(pathsOf(lye, null, 'fine'), pathsOf(oils, toCome, 'fine'), momentsOf(lye), of)) : { kind: 'met' };
  const when = first(terms, against.length > 0);
  const held = against.some(({ level }) => level === 'hold');
  const joinable = terms.apartLevel === 'hold' ? when : first({ ...terms, apart: Number.POSITIVE_INFINITY }, held);
  const acts = when.kind === 'met' ? [] : actsFor({ lye, oils, pot, toCome, terms }, when);
  return { kind: 'meeting', when, joinable, against, acts, setting: settingSoon(oils, terms, when) };
};

const momentsOf = ({ ahead }: Forecast): readonly number[] => ahead.map(({ after }) => after);
