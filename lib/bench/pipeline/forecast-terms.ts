import type { Contents } from '#lib/soap/cooling/types';
import { SETS_BELOW_UNSAID, setsNear } from '#lib/soap/melting';
import type { Terms, ToCome } from '#lib/soap/meeting/types';
import type { BatchState, JoiningPlan } from '#lib/work/batch/index';
import { lyeMade, SETTING_MARGIN } from '#lib/work/batch/joining';

const degrees = (thousandths: number): number => thousandths / 1000;

/** On which terms this batch is joined. */
export const termsOf = ({ window, allowedApart, apartLevel, oilsSetAt, mayStartToSet, milkLimit }: JoiningPlan): Terms => ({
  low: degrees(window.low),
  high: degrees(window.high),
  setsAt: oilsSetAt === null ? null : degrees(oilsSetAt),
  settingMargin: degrees(SETTING_MARGIN),
  maySetBelow: mayStartToSet === undefined ? null : degrees(mayStartToSet),
  apart: degrees(allowedApart),
  apartLevel,
  milkLimit: milkLimit === null ? null : degrees(milkLimit),
});

/** What stands in the pot, as far as its cooling goes; without a batch nothing is known of it. */
export const oilsOf = (batch: BatchState | null): Contents => {
  if (batch === null) return { kind: 'oils', setsBelow: SETS_BELOW_UNSAID };
  const { oilsSetAt } = batch.plan.joining;
  if (oilsSetAt !== null) return { kind: 'oils', setsBelow: setsNear(degrees(oilsSetAt)) };
  const hard = batch.plan.lines.some(({ material }) => material.class === 'hard-oil');
  return { kind: 'oils', setsBelow: hard ? SETS_BELOW_UNSAID : null };
};

/** What there is to meet in this batch, and what is still to be poured into its pot; `null`: nothing meets now. */
export const toMeet = (batch: BatchState | null, room: number): { readonly terms: Terms; readonly toCome: ToCome | null } | null => {
  if (batch === null || batch.status !== 'weighing' || !lyeMade(batch)) return null;
  const lines = Object.values(batch.lines).filter(({ plan }) => plan.phase === 'oils');
  const open = lines.filter(({ status }) => status !== 'closed');
  // A hard fat that is not in yet has to melt first: nobody knows where that leaves the pot.
  if (open.some(({ plan }) => plan.material.class === 'hard-oil')) return null;
  const held = lines.reduce((sum, { actual }) => sum + actual, 0);
  if (held <= 0) return null;
  const missing = open.reduce((sum, { plan, actual }) => sum + Math.max(0, plan.target - actual), 0);
  // One fat takes up heat much like another: shares of mass are shares of heat.
  return { terms: termsOf(batch.plan.joining), toCome: missing === 0 ? null : { share: missing / (held + missing), celsius: room } };
};
