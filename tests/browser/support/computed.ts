import type { Plan } from '#lib/work/batch/index';
import { planOf } from '#lib/work/formula/index';
import { ALDER_AND_OAT_FORMULA } from '#lib/work/formula/sample/formulas';
import { SAMPLE_WORKSHOP } from '#lib/work/formula/sample/workshop';

const computed = planOf(ALDER_AND_OAT_FORMULA, SAMPLE_WORKSHOP);
if (computed.kind !== 'plan') throw new Error('alder and oat has no plan');

/** Alder and oat as the chemistry works it out, with all that it froze. */
export const COMPUTED: Plan = computed.plan;
