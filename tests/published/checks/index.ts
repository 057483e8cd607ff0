import type { Check } from './check';
import { COOLING_CHECKS } from './cooling';
import { FAT_CHECKS } from './fats';
import { LABEL_CHECKS } from './labels';
import { LYE_DENSITY_CHECKS } from './lye-density';
import { LYE_HEAT_CHECKS } from './lye-heat';
import { MOLAR_MASS_CHECKS } from './molar-masses';
import { NET_CONTENT_CHECKS } from './net-content';
import { PRACTICE_CHECKS } from './practice';
import { PROBE_CHECKS } from './probes';
import { SAPONIFICATION_CHECKS } from './saponification';
import { WEIGHING_CHECKS } from './weighing';

/** Every figure of the outside world that ours is held against: read by the tests and by `npm run figures`. */
export const ALL_CHECKS: readonly Check[] = [
  ...MOLAR_MASS_CHECKS,
  ...SAPONIFICATION_CHECKS,
  ...FAT_CHECKS,
  ...LYE_DENSITY_CHECKS,
  ...LYE_HEAT_CHECKS,
  ...COOLING_CHECKS,
  ...PRACTICE_CHECKS,
  ...WEIGHING_CHECKS,
  ...PROBE_CHECKS,
  ...NET_CONTENT_CHECKS,
  ...LABEL_CHECKS,
];
