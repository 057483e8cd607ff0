import type { Plan } from '#lib/work/batch/index';
import { planOf } from '#lib/work/formula/index';
import { ALDER_AND_OAT_FORMULA } from '#lib/work/formula/sample/formulas';
import { SAMPLE_WORKSHOP } from '#lib/work/formula/sample/workshop';
import { planOf as planOfSample } from '#tests/support/batch';

const computed = planOf(ALDER_AND_OAT_FORMULA, SAMPLE_WORKSHOP);
if (computed.kind !== 'plan') throw new Error('alder and oat has no plan');

const ORDER = planOfSample('alder-and-oat').lines.map(({ id }) => id);

/** Alder and oat as the chemistry works it out, with all that it froze; in the typed plan's order, so that scenes can follow each other. */
export const COMPUTED: Plan = {
  ...computed.plan,
  lines: computed.plan.lines.toSorted((a, b) => ORDER.indexOf(a.id) - ORDER.indexOf(b.id)),
};
