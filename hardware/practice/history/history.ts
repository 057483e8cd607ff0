import type { EntryId } from '#lib/units/id';
import type { Realm } from '#lib/work/batch/index';
import { random } from '../world/random';
import { makeBatch } from './batch';
import type { Made } from './batch';
import { HANDS, notesOf, plansOf, withLots } from './workshop';

export interface PastOf {
  readonly seed: number;
  readonly batches: number;
  readonly realm: Realm;
  /** Wall time of the first, ms; they are made on working days from then on. */
  readonly from: number;
  readonly formulas?: number;
  /** Batches on one day. */
  readonly perDay?: number;
  /** Minutes each waited for its meeting, at the least and at the most. */
  readonly waited?: readonly [number, number];
}

const DAY_MS = 86_400_000;
const HOUR_MS = 3_600_000;
/** One olive oil pour in three batches from here on runs a little over: what a control chart is there to find. */
const DRIFTS_FROM = 0.6;

/**
 * A workshop's past, batch by batch, oldest first: the same seed gives the same one to the last digit. Every entry was decided by the rules
 * the bench has. Invented people, formulas, lots, hands and temperatures.
 */
export function* pastOf({
  seed,
  batches,
  realm,
  from,
  formulas = 12,
  perDay = 1,
  waited = [18, 34],
}: PastOf): Generator<Made & { readonly mark: string }> {
  const [choice, noise] = [random(seed, 'choice'), random(seed, 'noise')];
  const plans = plansOf(formulas, random(seed, 'formulas'));
  let checks: Readonly<Record<string, EntryId>> = {};
  let [year, number] = [0, 0];
  for (let at = 0; at < batches; at += 1) {
    const day = workingDay(Math.floor(at / perDay));
    const wall = from + day * DAY_MS + (7 + 3 * (at % perDay)) * HOUR_MS + Math.round(choice.between(0, 40)) * 60_000;
    const now = new Date(wall).getUTCFullYear() % 100;
    number = now === year ? number + 1 : 1;
    year = now;
    const mark = `${String(year).padStart(2, '0')}-${number}`;
    const plan = withLots(oneOf(plans, choice.next()), day);
    // Most of it is one person's work.
    const hand = oneOf(HANDS, choice.next() < 0.4 ? choice.next() : 0);
    const made = makeBatch({
      batch: `past-${seed}-${at + 1}`,
      mark,
      realm,
      person: hand.person,
      wall,
      offsetMin: 60,
      checks,
      plan,
      hand,
      random: noise,
      drift: at > DRIFTS_FROM * batches ? { olive: 0.35 } : {},
      notes: notesOf(choice),
      waited: Math.round(choice.between(...waited)),
      checksScale: at % 9 === 0,
    });
    checks = made.checks;
    yield { ...made, mark };
  }
}

/** The nth working day as a number of days: two of seven are none. */
const workingDay = (n: number): number => Math.floor(n / 5) * 7 + (n % 5);

const oneOf = <T>(all: readonly T[], chance: number): T => {
  const found = all[Math.floor(chance * all.length)];
  if (found === undefined) throw new Error('there is nothing to choose from');
  return found;
};
