import { dayOf } from '#lib/units/day';
import { as } from '#lib/units/id';
import type { EntryId, LotId, PersonId } from '#lib/units/id';
import { mg } from '#lib/units/mass';
import type { BarsEntry } from '#lib/work/bars/index';
import type { Workshop } from '#lib/work/bars/offered';
import { fold } from '#lib/work/batch/index';
import type { Entry, LinePlan, Plan, Realm } from '#lib/work/batch/index';
import { lotsOf } from '#lib/work/batch/lots';
import { materialsById, planOf } from '#lib/work/formula/index';
import type { Lot } from '#lib/work/formula/index';
import { random } from '../../world/random';
import type { Random } from '../../world/random';
import { makeBatch } from '../batch';
import { HANDS, notesOf } from '../workshop';
import { barsOf } from './bars';
import type { KeptPictures } from './pictures';
import { CONTEXT, FORMULAS, LASTS, MOULDS, SODA, statedOf } from './workshop';

export interface HalfYear {
  readonly seed: number;
  readonly batches: number;
  readonly realm: Realm;
  /** The moment it ends, wall ms: nothing of it lies after that. */
  readonly now: number;
  readonly offsetMin: number;
  /** Who weighed, and who bought. */
  readonly people: readonly PersonId[];
  readonly buyers: readonly PersonId[];
  /** Of the bars of newer lots; empty: nobody took any. */
  readonly pictures: KeptPictures;
}

/** What a batch and the bars of it left in the journal, oldest first. */
export interface Past {
  readonly batch: readonly Entry[];
  readonly bars: readonly (readonly BarsEntry[])[];
}

const DAY_MS = 86_400_000;
const HOUR_MS = 3_600_000;
const DAYS = 182;
const [SUNDAY, SATURDAY] = [0, 6];

/** Days of the half-year on which somebody poured, spread over its working days to the last, so that something still stands in its mould. */
const pouringDays = (batches: number, now: number): readonly number[] => {
  const days: number[] = [];
  for (let back = DAYS; back >= 1; back -= 1) {
    const weekday = new Date(now - back * DAY_MS).getUTCDay();
    if (weekday !== SUNDAY && weekday !== SATURDAY) days.push(back);
  }
  return Array.from({ length: batches }, (_, at) => days[Math.ceil(((at + 1) * days.length) / batches) - 1] ?? 1);
};

/** The lot of a material that stood open on a day: it lasts some weeks, then comes the next. */
const openLot = (material: string, back: number, line: LinePlan): { readonly id: LotId; readonly mark: string } => {
  const [lasts] = LASTS[material] ?? [120, 500];
  const turn = 1 + Math.floor((DAYS - back) / lasts);
  return { id: as<LotId>(`lot-${material}-${turn}`), mark: `${line.material.name.slice(0, 3).toUpperCase()} ${String(20 + turn)}` };
};

const withOpenLots = (plan: Plan, back: number): Plan => ({
  ...plan,
  // One whose certificate the plan was worked out with stays: of another nothing is known.
  lines: plan.lines.map((line) => (line.lot === null ? { ...line, lot: openLot(line.material.id, back, line) } : line)),
});

const WORKSHOP: Workshop = {
  mould: (id) => MOULDS.find((one) => one.id === id) ?? null,
  material: (id) => materialsById(CONTEXT.materials).get(id) ?? null,
  lot: (id) => (SODA?.id === id ? SODA : null),
  formula: (id) => FORMULAS.find((one) => one.id === id) ?? null,
};

const planned = (): readonly Plan[] =>
  FORMULAS.map((formula) => {
    const found = planOf(formula, CONTEXT);
    if (found.kind !== 'plan') throw new Error(`${formula.name} has no plan: ${JSON.stringify(found)}`);
    return found.plan;
  });

/**
 * Half a year of the invented workshop: batches on working days until now, poured into moulds, cut, cured, weighed and sold, every entry of
 * it decided by the rules the bench has. The same seed and moment give the same half-year to the last digit.
 */
export function* halfYear(asked: HalfYear): Generator<Past> {
  const { seed, batches, realm, now, offsetMin, people } = asked;
  const [choice, noise, later] = [random(seed, 'choice'), random(seed, 'noise'), random(seed, 'later')];
  const plans = planned();
  let checks: Readonly<Record<string, EntryId>> = {};
  let [year, number] = [0, 0];
  for (const [at, back] of pouringDays(batches, now).entries()) {
    const midnight = (Math.floor((now + offsetMin * 60_000) / DAY_MS) - back) * DAY_MS - offsetMin * 60_000;
    const wall = midnight + Math.round((7.5 + choice.between(0, 2)) * HOUR_MS);
    const thisYear = Number(dayOf(wall, offsetMin).slice(2, 4));
    number = thisYear === year ? number + 1 : 1;
    year = thisYear;
    const hand = HANDS[choice.next() < 0.75 ? 0 : 1];
    const person = people[hand === HANDS[0] ? 0 : 1] ?? people[0];
    const plan = plans[Math.floor(choice.next() * plans.length)];
    if (hand === undefined || person === undefined || plan === undefined) throw new Error('there is nobody to weigh');
    const made = makeBatch({
      batch: `half-year-${seed}-${at + 1}`,
      mark: `${String(year).padStart(2, '0')}-${number}`,
      realm,
      person,
      wall,
      offsetMin,
      checks,
      plan: withOpenLots(plan, back),
      hand: { ...hand, person },
      random: noise,
      drift: at > 0.7 * batches ? { olive: 0.3 } : {},
      notes: notesOf(choice),
      waited: Math.round(choice.between(10, 16)),
      probes: true,
      checksScale: at % 9 === 0,
    });
    checks = made.checks;
    yield { batch: made.entries, bars: barsAfter(made.entries, { person, ...asked }, later, checks) };
  }
}

const barsAfter = (
  entries: readonly Entry[],
  { person, now, offsetMin, buyers, pictures }: HalfYear & { readonly person: PersonId },
  later: Random,
  checks: Readonly<Record<string, EntryId>>,
): Past['bars'] => {
  const batch = fold(entries);
  if (batch === null || batch.status !== 'closed') return [];
  const check = checks['scale-main'] ?? null;
  return barsOf({ batch, workshop: WORKSHOP, now, offsetMin, person, buyers, random: later, check, pictures });
};

const PACKS = 500;
const MG = 1000;

/** Receipts of the lots that batches were weighed from: whole packs, a little more than was used, what was paid, and until when. */
export const receiptsOf = (pasts: readonly Past[], now: number, offsetMin: number): readonly Lot[] => {
  const used = new Map<string, { material: string; mark: string; mass: number; first: number }>();
  for (const { batch } of pasts) {
    const state = fold(batch);
    if (state === null) continue;
    for (const { lot, mark, mass } of lotsOf(state)) {
      const line = Object.values(state.lines).find(({ plan }) => plan.lot?.id === lot);
      const before = used.get(lot);
      const material = line?.plan.material.id ?? lot;
      used.set(lot, { material, mark, mass: (before?.mass ?? 0) + mass, first: before?.first ?? state.startedWall });
    }
  }
  return [...used].map(([id, { material, mark, mass, first }]): Lot => {
    const [, pack] = LASTS[material] ?? [0, PACKS];
    const amount = mg(Math.ceil((1.04 * mass) / (pack * MG)) * pack * MG);
    const kept = SODA?.id === id ? SODA : { id, mark, material, certificate: statedOf(material), files: [] };
    const came = dayOf(first - 3 * DAY_MS, offsetMin);
    const until = dayOf(first + 420 * DAY_MS, offsetMin);
    return {
      ...kept,
      supplier: 'Fellside Supplies',
      received: { day: came, amount },
      opened: dayOf(first, offsetMin),
      bestBefore: until,
      paid: ((amount / MG) * (PRICE[material] ?? 0.02)).toFixed(2),
      ...(first < now - 120 * DAY_MS && amount - mass < 0.1 * amount && SODA?.id !== id ? { state: 'used-up' as const } : {}),
    };
  });
};

/** Money for a gram, invented. */
const PRICE: Readonly<Record<string, number>> = {
  coconut: 0.0062,
  shea: 0.0145,
  olive: 0.0088,
  rapeseed: 0.0038,
  'sodium-hydroxide': 0.0078,
  water: 0.0004,
  'alder-wood-scent': 0.19,
  'meadowsweet-scent': 0.21,
};
