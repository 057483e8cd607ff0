import { planOf, planOnBench, withCatalogue } from '#lib/work/formula/index';
import type { Lot, Planned, Scale } from '#lib/work/formula/index';
import { SAMPLE_PLANS } from '#lib/work/formula/sample';
import type { PlanList } from '#lib/protocol/http';
import type { InstrumentConfig } from '#lib/measure/instrument';
import { dayOf } from '#lib/units/day';
import type { Day } from '#lib/units/day';
import { as } from '#lib/units/id';
import type { LotId } from '#lib/units/id';
import type { Plan, Realm } from '#lib/work/batch/index';
import { contextOf, formulaFor, lotsOf } from '#lib/work/shelf/context';
import { faultOf, firstOut } from '#lib/work/lots/fitness';
import type { Prepared } from '#lib/work/shelf/documents';
import { systemClock } from './system';
import { newest, standing } from '#lib/work/shelf/shelf';
import type { Shelf } from '#lib/work/shelf/shelf';

type OfferedPlan = PlanList['plans'][number];
type Lots = Readonly<Record<string, { readonly id: string }>>;

/** `unsound`: its formula cannot be computed any more, or something stands against starting it. */
export type PlanFound = Plan | 'unsound' | null;

export interface Plans {
  /** What the bench may start, each line on a scale there is: what was prepared on paper, then typed plans of the invented workshop. */
  list(): PlanList;
  /** A plan with the lots chosen for its lines. `null` when plan, line or lot is not known here: what a lot is called is ours to say, not the screen's. */
  with(id: string, lots: Lots): PlanFound;
}

export interface PlanParts {
  readonly shelf: () => Shelf;
  readonly scales: readonly Scale[];
  /** In `real` the typed plans do not exist: their lots are invented, and a record would name them as received. */
  readonly realm: Realm;
  readonly today?: () => Day;
}

/** Scales as the bench knows them; repeatability comes with a check of ten weighings. */
export const scalesOf = (configs: readonly InstrumentConfig[]): readonly Scale[] =>
  configs.flatMap((config) => {
    if (config.kind !== 'scale') return [];
    const { id, role, name, capacity, division } = config;
    return [{ id, role, name, capacity, division, repeatability: null }];
  });

export const createPlans = ({ shelf, scales, realm, today = ofThisMachine }: PlanParts): Plans => {
  const typed = (realm === 'real' ? [] : SAMPLE_PLANS).map((sample) => ({ ...sample, plan: planOnBench(sample.plan, scales) }));
  const planned = (prepared: Prepared, lots: Readonly<Record<string, string>>): Planned | 'unsound' => {
    const formula = formulaFor(shelf(), prepared, lots);
    const answer = formula === null ? null : planOf(formula, withCatalogue(contextOf(shelf(), scales)));
    return answer !== null && answer.kind === 'plan' && answer.mayStart ? { ...answer, plan: planOnBench(answer.plan, scales) } : 'unsound';
  };
  return {
    // The maker's own stand first.
    list: () => ({
      plans: [
        ...standing(shelf(), 'prepared').flatMap(({ id, newest: { document } }) => {
          const found = planned(document as unknown as Prepared, {});
          return found === 'unsound' ? [] : [{ id, plan: found.plan, lots: storesFor(shelf(), found.plan, today()) }];
        }),
        ...typed,
      ],
    }),
    with(id, lots) {
      const known = typed.find((plan) => plan.id === id);
      if (known !== undefined) return withLots(known, lots);
      const prepared = (newest(shelf(), 'prepared', id)?.document ?? preparedFrom(shelf(), id)) as Prepared | undefined;
      if (prepared === undefined) return null;
      const first = planned(prepared, {});
      if (first === 'unsound') return first;
      const offered: OfferedPlan = { id, plan: first.plan, lots: storesFor(shelf(), first.plan, today()) };
      if (withLots(offered, lots) === null) return null;
      // A lot's certificate may change the weights: computed again from the lots chosen.
      const chosen = first.lines.flatMap(({ line, entry }) => (lots[line] === undefined ? [] : [[entry, lots[line].id] as const]));
      const second = chosen.length === 0 ? first : planned(prepared, Object.fromEntries(chosen));
      return second === 'unsound' ? second : withLots({ ...offered, plan: second.plan }, lots);
    },
  };
};

const ofThisMachine = (): Day => dayOf(systemClock.wall(), systemClock.offsetMinutes());

/** The newest that was prepared from a formula: a batch under way names that. */
const preparedFrom = (shelf: Shelf, formula: string): unknown =>
  standing(shelf, 'prepared')
    .map(({ newest: { document } }) => document as unknown as Prepared)
    .findLast((prepared) => prepared.formula.id === formula);

/** Every lot in the stores that a line could be weighed from. */
const storesFor = (shelf: Shelf, plan: Plan, today: Day): OfferedPlan['lots'] =>
  Object.fromEntries(plan.lines.map((line) => [line.id, offered(lotsOf(shelf, line.material.id), line.lot?.id ?? null, today)]));

/** First expired, first out; what is used up is not offered, unless the plan names it: then somebody has to say so. */
const offered = (lots: readonly Lot[], named: string | null, today: Day): OfferedPlan['lots'][string] =>
  firstOut(
    lots.filter(({ id, state }) => state !== 'used-up' || id === named),
    today,
  ).map((lot) => {
    const { id, mark, bestBefore } = lot;
    const fault = faultOf(lot, today);
    return { id, mark, ...(bestBefore === undefined ? {} : { bestBefore }), ...(fault === null ? {} : { fault }) };
  });

const withLots = ({ plan, lots: known }: OfferedPlan, lots: Lots): Plan | null => {
  const chosen = new Map<string, { id: LotId; mark: string }>();
  for (const [line, { id: lot }] of Object.entries(lots)) {
    const found = known[line]?.find((one) => one.id === lot);
    if (found === undefined || !plan.lines.some((planned) => planned.id === line)) return null;
    chosen.set(line, { id: as(found.id), mark: found.mark });
  }
  return { ...plan, lines: plan.lines.map((line) => ({ ...line, lot: chosen.get(line.id) ?? line.lot })) };
};
