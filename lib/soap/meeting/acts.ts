import { comesDownTo } from '../cooling/reach';
import type { Ahead, Forecast } from '../cooling/types';
import { firstMeetings, lyeHighest, oilsLowest } from './first';
import { beforePouring, pathsAfter, pathsOf, type Brought } from './paths';
import type { Act, Terms, ToCome, When } from './types';
import { soonness, whenOf } from './when';

export interface Vessels {
  readonly lye: Forecast;
  readonly oils: Forecast;
  /** `oils` with what is still to come poured in. */
  readonly pot: readonly Ahead[];
  readonly toCome: ToCome | null;
  readonly terms: Terms;
}

/** Less than this is not worth an act: K, and s won. */
const WORTH_K = 1;
const WORTH_S = 120;
/** Nothing is brought nearer to the edge of what is allowed than this, K. */
const SPARE = 1;

/** The acts that bring the meeting forward, or about at all; the soonest first. */
export const actsFor = (vessels: Vessels, unaided: When): readonly Act[] =>
  [coolLye(vessels), warmOils(vessels), warmLye(vessels)]
    .filter((act) => act !== null)
    .filter(({ meets }) => soonness(meets) < soonness(unaided) - WORTH_S)
    .toSorted((a, b) => soonness(a.meets) - soonness(b.meets));

const middleAt = (ahead: readonly Ahead[], after: number): number => {
  const i = ahead.findIndex((one) => one.after >= after);
  const [before, there] = [ahead[i - 1], ahead[i]];
  if (there === undefined) return ahead.at(-1)?.middle ?? Number.NaN;
  if (before === undefined) return there.middle;
  return before.middle + ((there.middle - before.middle) * (after - before.after)) / (there.after - before.after);
};

const into = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

/** Whole degrees: nobody warms a pot to a tenth. */
const whole = (value: number): number => Math.round(value);

const after = (vessels: Vessels, lye: Brought | null, oils: Brought | null): When => {
  const grain = 'coarse';
  const lyePaths = lye === null ? pathsOf(vessels.lye, null, grain) : pathsAfter(vessels.lye, lye, null, grain);
  const { toCome } = vessels;
  const oilsPaths = oils === null ? pathsOf(vessels.oils, toCome, grain) : pathsAfter(vessels.oils, oils, toCome, grain);
  return whenOf(
    firstMeetings(
      lyePaths,
      oilsPaths,
      vessels.lye.ahead.map((one) => one.after),
      vessels.terms,
    ),
  );
};

/** Lye is cooled as soon as the oils are inside the window, to what suits them. */
const coolLye = (vessels: Vessels): Act | null => {
  const { lye, pot, terms } = vessels;
  const start = comesDownTo(pot, terms.high).middle;
  if (start === null) return null;
  const to = whole(into(middleAt(pot, start) + terms.apart / 2, terms.low + SPARE, lyeHighest(terms) - SPARE));
  if (middleAt(lye.ahead, start) < to + WORTH_K) return null;
  return { vessel: 'lye', kind: 'cool', to, start, meets: after(vessels, { to, start }, null) };
};

/** Lye that is too cold is warmed, never past what a milk in it bears. */
const warmLye = (vessels: Vessels): Act | null => {
  const { lye, pot, terms } = vessels;
  const start = comesDownTo(pot, terms.high).middle;
  if (start === null) return null;
  const to = Math.floor(into(middleAt(pot, start) - terms.apart / 2, terms.low + SPARE, lyeHighest(terms) - SPARE));
  if (middleAt(lye.ahead, start) > to - WORTH_K) return null;
  return { vessel: 'lye', kind: 'warm', to, start, meets: after(vessels, { to, start }, null) };
};

/**
 * Oils are warmed before they set, as far as the window goes, when that holds until the lye is ready; else when it is ready, to what suits
 * it: they may have set by then, and melt again.
 */
const warmOils = (vessels: Vessels): Act | null => {
  const { lye, pot, terms, toCome } = vessels;
  const lowest = oilsLowest(terms);
  const ready = comesDownTo(lye.ahead, lyeHighest(terms)).middle;
  const sets = comesDownTo(pot, lowest + SPARE).middle;
  if (ready === null) return null;
  const suits = (at: number): number => into(middleAt(lye.ahead, at), lowest + SPARE, terms.high - SPARE);
  const tries: Brought[] = [{ to: suits(ready), start: ready }];
  if (sets !== null && sets < ready) tries.unshift({ to: terms.high - SPARE, start: sets });
  for (const { to, start } of tries) {
    const inPot = whole(beforePouring(to, toCome));
    if (middleAt(pot, start) > to - WORTH_K) continue;
    const meets = after(vessels, null, { to: inPot, start });
    if (meets.kind === 'in') return { vessel: 'oils', kind: 'warm', to: inPot, start, meets };
  }
  return null;
};
