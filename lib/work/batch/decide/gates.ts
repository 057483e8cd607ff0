import type { Command, Refusal } from '../commands';
import { hottestSaid, tooHotForHydroxide } from '../cooled';
import { foretoldOf } from '../lye-making';
import { overRating } from '../over-rating';
import { own } from '../own';
import { PRECAUTIONS } from '../precautions';
import type { BatchState, VesselState } from '../state';
import type { MilliCelsius } from '#lib/units/temperature';
import { isHydroxide } from '../classes';
import { lineOf, unfit } from './checks';
import { allow, deny, draft, refusal, refuse, type Decider } from './decision';

/** The liquid hydroxide goes into is cold, its lye cooled, by probe and hand too: a tick alone is not enough where one says it is hot. */
const stillHot = (state: BatchState, jug: VesselState, { observation, boot, mono }: Command): Refusal | null => {
  const { lye, lyeSeen = null } = observation;
  const hot = tooHotForHydroxide(state, jug, { lye, lyeSeen, boot, mono });
  return hot === null ? null : refusal('lye-hot', { value: hot, limit: state.plan.joining.window.high });
};

const liquidOf = (state: BatchState, { observation, boot, mono }: Command): MilliCelsius | null =>
  hottestSaid(state, { lye: observation.lye, boot, mono });

/** Locked where the lye would get hotter than its jug is made for. */
const tooHotForJug = (state: BatchState, command: Command): Refusal | null => {
  const over = overRating(state, liquidOf(state, command));
  return over === null ? null : refusal('over-rating', { peak: over.peak, rating: over.rating });
};

export const confirmGate: Decider<'confirm-gate'> = (state, command) => {
  const { body } = command;
  const { gate, items, held } = body;
  const id = gate === 'hydroxide' ? (body.line ?? state.open) : body.line;
  const line = id === null ? undefined : lineOf(state, id);
  if (gate === 'hydroxide') {
    if (line === undefined || !isHydroxide(line.plan)) return refuse('no-such', { what: 'line', id: id ?? '' });
    if (state.joined !== null) return refuse('after-joining', { line: line.plan.id });
    if (line.plan.lot === null) return refuse('needs-lot', { line: line.plan.id });
  }
  if (!held) return refuse('needs-hold', { gate });
  const missing = PRECAUTIONS[gate].find((item) => !items.includes(item));
  if (missing !== undefined) return refuse('needs-gate', { gate, missing });
  const jug = Object.values(state.vessels).find(({ plan }) => plan.use === 'liquid');
  const hot = (gate === 'cold-liquid' && jug !== undefined ? stillHot(state, jug, command) : null) ?? tooHotForJug(state, command);
  if (hot !== null) return deny(hot);
  return allow(draft('gate-confirmed', { gate, line: line?.plan.id ?? null, items }));
};

/** Everything that belongs into these two vessels is in: no hydroxide and no liquid still to weigh. */
const unready = (state: BatchState, cup: VesselState, jug: VesselState): Refusal | null => {
  const open = Object.values(state.lines).find(
    ({ plan, status }) => status !== 'closed' && ((isHydroxide(plan) && plan.vessel === cup.plan.id) || plan.vessel === jug.plan.id),
  );
  return open === undefined ? null : refusal('wrong-order', { line: open.plan.id, open: state.open ?? '' });
};

/** Hydroxide into cold liquid, never the reverse, once both are weighed. */
export const dissolve: Decider<'dissolve'> = (state, command) => {
  const { body } = command;
  const cup = own(state.vessels, body.vessel);
  const jug = own(state.vessels, body.into);
  if (cup === undefined) return refuse('no-such', { what: 'vessel', id: body.vessel });
  if (jug === undefined || body.into === body.vessel) return refuse('no-such', { what: 'vessel', id: body.into });
  if (state.joined !== null) return refuse('after-joining', { vessel: body.vessel });
  if (cup.state !== 'dry' || cup.contents === 0) return refuse('wrong-order', { vessel: body.vessel, state: cup.state });
  if (jug.plan.use !== 'liquid' || jug.contents === 0) return refuse('wrong-vessel', { vessel: body.into });
  const no = unfit(jug.plan, true) ?? unready(state, cup, jug) ?? stillHot(state, jug, command) ?? tooHotForJug(state, command);
  if (no !== null) return deny(no);
  if (own(state.gates, 'cold-liquid') === undefined) return refuse('needs-gate', { gate: 'cold-liquid' });
  if (!body.held) return refuse('needs-hold', { vessel: body.vessel });
  const foretold = foretoldOf(state, liquidOf(state, command));
  return allow(
    draft('dissolved', { vessel: body.vessel, into: body.into, confirmedCold: true, ...(foretold === null ? {} : { foretold }) }),
  );
};
