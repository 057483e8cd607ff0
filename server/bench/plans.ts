import { SAMPLE_PLANS } from '#lib/work/formula/sample';
import type { PlanList } from '#lib/protocol/http';
import { as } from '#lib/units/id';
import type { Plan } from '#lib/work/batch/index';

/** The plans of the invented workshop, until formulas compute them. */
export const PLANS: PlanList = { plans: SAMPLE_PLANS };

/** A plan with the lots chosen for its lines; `null` when plan, line or lot is not known here. What a lot is called is ours to say, not the screen's. */
export const planWith = (id: string, lots: Readonly<Record<string, { readonly id: string }>>): Plan | null => {
  const known = PLANS.plans.find((plan) => plan.id === id);
  if (known === undefined) return null;
  const chosen = new Map<string, { id: string; mark: string }>();
  for (const [line, { id: lot }] of Object.entries(lots)) {
    const found = known.lots[line]?.find((one) => one.id === lot);
    if (found === undefined || !known.plan.lines.some((planned) => planned.id === line)) return null;
    chosen.set(line, found);
  }
  const lines = known.plan.lines.map((line) => {
    const lot = chosen.get(line.id);
    return lot === undefined ? line : { ...line, lot: { id: as<NonNullable<typeof line.lot>['id']>(lot.id), mark: lot.mark } };
  });
  return { ...known.plan, lines };
};
