import { alderAndOat } from './sample/alder-and-oat';
import { meadowsweet } from './sample/meadowsweet';
import { slate } from './sample/slate';
import type { SamplePlan } from './sample/make';

export type { SampleLot, SamplePlan } from './sample/make';

/** Typed plans of the invented workshop, for practice without a formula of one's own. Lots are by line. */
export const SAMPLE_PLANS: readonly SamplePlan[] = [alderAndOat, meadowsweet, slate];
