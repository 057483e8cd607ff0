import type { Command, CommandOf, Refusal } from '../commands';
import { own } from '../own';
import type { LinePlan, Plan } from '../plan';
import type { BatchState } from '../state';
import { verdictOf } from '../verdict';
import { isHydroxide } from '../classes';
import { blank, lineOf, noSuch, uncheckedScales, unfit } from './checks';
import { allow, deny, draft, refusal, refuse, type Decider, type Decision } from './decision';
import { cleanedOf } from './later';

const badLine = (line: LinePlan, vessels: Plan['vessels']): Refusal | null => {
  const vessel = vessels.find(({ id }) => id === line.vessel);
  if (vessel === undefined) return noSuch('vessel', line.vessel);
  const { into = null } = line;
  if (into !== null && !vessels.some(({ id }) => id === into)) return noSuch('vessel', into);
  const bad = line.target <= 0 || line.tolerance <= 0 || (line.upper !== null && line.upper < line.target);
  if (bad) return refusal('bad-number', { line: line.id });
  return unfit(vessel, isHydroxide(line));
};

const repeated = (ids: readonly string[]): string | undefined => ids.find((id, at) => ids.indexOf(id) !== at);

const badPlan = (plan: Plan): Refusal | null => {
  if (plan.lines.length === 0) return noSuch('line', '');
  const twice = repeated(plan.lines.map(({ id }) => id)) ?? repeated(plan.vessels.map(({ id }) => id));
  if (twice !== undefined) return refusal('wrong-order', { twice });
  const { window, allowedApart } = plan.joining;
  if (window.low > window.high || allowedApart < 0) return refusal('bad-number', { joining: 1 });
  for (const vessel of plan.vessels) {
    const no = unfit(vessel);
    if (no !== null) return no;
  }
  for (const line of plan.lines) {
    const no = badLine(line, plan.vessels);
    if (no !== null) return no;
  }
  return null;
};

/** One batch is armed on a bench at a time. */
export const otherArmed = (command: Command): Refusal | null => {
  const { armed = null } = command.observation;
  return armed !== null && armed !== command.batch ? refusal('another-batch', { armed }) : null;
};

export const start = (state: BatchState | null, command: CommandOf<'start'>): Decision => {
  if (state !== null) return refuse('wrong-state', { status: state.status });
  const { mark, plan, bench, cleaned = [], unfit: bad = [], held = false } = command.body;
  const no = otherArmed(command) ?? badPlan(plan);
  if (no !== null) return deny(no);
  const [first] = bad;
  if (first !== undefined && !held) return refuse('lot-unfit', { line: first.line, fault: first.fault, lot: first.lot.mark });
  return allow(
    draft('batch-started', { mark, plan, bench, uncheckedScales: uncheckedScales(command) }),
    ...cleanedOf(cleaned),
    ...bad.map(({ line, lot, fault }) => draft('lot-chosen', { line, lot, despite: fault })),
  );
};

export const replan: Decider<'replan'> = (state, { body }) => {
  if (blank(body.reason) || body.lines.length === 0) return refuse('no-such', { what: 'reason', id: '' });
  const twice = repeated(body.lines.map(({ id }) => id));
  if (twice !== undefined) return refuse('wrong-order', { twice });
  for (const plan of body.lines) {
    if (state.joined !== null && isHydroxide(plan)) return refuse('after-joining', { line: plan.id });
    const before = own(state.lines, plan.id);
    if (before !== undefined && before.plan.material.id !== plan.material.id)
      return refuse('no-such', { what: 'material', id: plan.material.id });
    const no = badLine(plan, state.plan.vessels);
    if (no !== null) return deny(no);
  }
  // A line that was complete and now falls short of its moved target is to be poured on.
  const reopened = body.lines.filter((plan) => {
    const line = own(state.lines, plan.id);
    return line?.status === 'closed' && line.actual < plan.target - plan.tolerance && plan.target > line.plan.target;
  });
  // And one that its moved target finds complete needs no pour more.
  const completed = body.lines.flatMap((plan) => {
    const line = own(state.lines, plan.id);
    const waits = state.over?.line === plan.id;
    const whole = line !== undefined && !waits && line.status !== 'closed' && line.actual > 0 && verdictOf(plan, line.actual) === 'within';
    return whole ? [draft('line-closed', { line: plan.id, outcome: 'within', actual: line.actual })] : [];
  });
  return allow(draft('replanned', body), ...reopened.map(({ id }) => draft('line-reopened', { line: id })), ...completed);
};

export const chooseLot: Decider<'choose-lot'> = (state, { body }) => {
  const line = lineOf(state, body.line);
  if (line === undefined) return refuse('no-such', { what: 'line', id: body.line });
  if (line.status === 'closed') return refuse('wrong-order', { line: body.line });
  if (blank(body.lot.id) || blank(body.lot.mark)) return refuse('no-such', { what: 'lot', id: body.lot.id });
  const { lot: chosen, fault, held = false } = body;
  if (fault !== undefined && !held) return refuse('lot-unfit', { line: body.line, fault, lot: chosen.mark });
  return allow(draft('lot-chosen', { line: body.line, lot: chosen, ...(fault === undefined ? {} : { despite: fault }) }));
};
