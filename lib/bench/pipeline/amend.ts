import { toleranceOn } from '#lib/work/formula/scales';
import type { BatchState, Plan, Refusal, Want } from '#lib/work/batch/index';
import { own } from '#lib/work/batch/own';
import type { Core } from './core-types';
import { divisionOf } from './watch';
import type { Meaning } from './wants';

/** A plan with these lots, computed anew from the server's own shelf. */
interface Stores {
  readonly plan: (id: string, lots: Readonly<Record<string, { readonly id: string; readonly mark: string }>>) => Plan | 'unsound' | null;
}

type Amendment = Extract<Meaning, { is: 'other-lot' | 'other-scale' }>;

/** What only the server can say of a change that a person wants: what a lot is made of, what a scale can show. */
export const amended = (core: Core, stores: Stores, batch: BatchState, meaning: Amendment): Want | Refusal =>
  meaning.is === 'other-lot' ? otherLot(stores, batch, meaning) : otherScale(core, batch, meaning);

/** The batch worked out again as if that lot had been chosen at the start; of another version of the formula nothing is known. */
const otherLot = (stores: Stores, batch: BatchState, { line, lot, held }: Extract<Meaning, { is: 'other-lot' }>): Want | Refusal => {
  const lots = Object.values(batch.lines).flatMap(({ plan }) => (plan.lot === null ? [] : [[plan.id, plan.lot] as const]));
  const plan = stores.plan(batch.plan.formula.id, { ...Object.fromEntries(lots), [line]: lot });
  if (plan === null) return { code: 'no-such', params: { what: 'lot', id: lot.id } };
  const basis = plan === 'unsound' || plan.formula.version !== batch.plan.formula.version ? undefined : plan.basis?.poured;
  if (basis === undefined) return { code: 'plan-unsound', params: { id: batch.plan.formula.id } };
  // What it was sized for stays as it was started; what each gram is made of is another.
  const now = batch.plan.basis?.poured;
  if (now === undefined) return { code: 'plan-unsound', params: { id: batch.plan.formula.id } };
  const amended = { ...now, beliefs: basis.beliefs, lines: basis.lines };
  return { kind: 'state-wrong', body: { what: 'lot', line, vessel: null, mass: null, lot, basis: amended, held } };
};

/** On the other scale from now on, with a tolerance that it can show: loosened only as far as it cannot, and recorded. */
const otherScale = (
  core: Core,
  batch: BatchState,
  { line: id, scale: role, held }: Extract<Meaning, { is: 'other-scale' }>,
): Want | Refusal => {
  const line = own(batch.lines, id);
  const scale = core.watch.scales().find(({ config }) => config.role === role);
  if (line === undefined || scale === undefined) return { code: 'no-such', params: { what: line === undefined ? 'line' : 'scale', id } };
  if (!held) return { code: 'needs-hold', params: { line: id } };
  if (line.status === 'closed' || line.plan.scale === role) return { code: 'wrong-order', params: { line: id } };
  const { meant, ...plan } = line.plan;
  const { id: instrument, name, capacity } = scale.config;
  const wanted = { id: instrument, role, name, capacity, division: divisionOf(scale), repeatability: null };
  const tolerance = Math.max(line.plan.tolerance, toleranceOn(wanted, line.plan.tolerance)) as typeof line.plan.tolerance;
  const home = meant ?? line.plan.scale;
  const moved = { ...plan, scale: role, tolerance, ...(home === role ? {} : { meant: home }) };
  return { kind: 'replan', body: { lines: [moved], reason: 'other-scale' } };
};
