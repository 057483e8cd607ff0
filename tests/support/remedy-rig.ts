import { as } from '#lib/units/id';
import type { InstrumentId } from '#lib/units/id';
import { grams } from '#lib/units/mass';
import { planOnBench } from '#lib/work/formula/index';
import type { Formula, PlanContext, Scale } from '#lib/work/formula/index';
import type { LinePlan, Plan } from '#lib/work/batch/index';
import { NO_FACTS, type RemedyFacts } from '#lib/work/batch/remedy/index';
import { BatchRig, FINE, MAIN } from './batch';
import { planned, WORKSHOP } from './formula';

/** Two scales: 0.1 g to 6 kg, and 0.01 g to 500 g. */
export const SCALES: readonly Scale[] = [
  { id: MAIN, role: 'main', name: 'main', capacity: grams(6_000), division: grams(0.1), repeatability: null },
  { id: FINE, role: 'fine', name: 'fine', capacity: grams(500), division: grams(0.01), repeatability: null },
];

/** What the formulas of these tests must stay inside. */
export const LIMITS = { superfat: { low: '4', high: '6' }, lye: { low: '30', high: '36' } };

export const factsWith = (given: Partial<RemedyFacts> = {}, scales: readonly Scale[] = SCALES): RemedyFacts => ({
  ...NO_FACTS,
  scales: scales.map(({ id, role, division, capacity }) => ({ id: as<InstrumentId>(id), role, division, capacity })),
  ...given,
});

/** A formula as a computed plan on this bench, a lot for every line. */
export const computed = (formula: Formula, context: PlanContext = WORKSHOP, scales: readonly Scale[] = SCALES): Plan => {
  const { plan } = planned(formula, { ...context, scales });
  const onBench = planOnBench(plan, scales);
  return {
    ...onBench,
    lines: onBench.lines.map((line): LinePlan => ({ ...line, lot: line.lot ?? { id: as(`lot-${line.id}`), mark: 'X 1' } })),
  };
};

/** A batch of that plan, started. */
export const batchOf = (formula: Formula, context?: PlanContext, scales?: readonly Scale[]): BatchRig =>
  new BatchRig().start(computed(formula, context, scales));
