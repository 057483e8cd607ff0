import { mg } from '#lib/units/mass';
import type { CommandOf, Refusal } from '../commands';
import type { Draft } from '../entries';
import { RECOGNISED_WITHIN, UNSTATED_WITHIN, alike, shiftAllowed } from '../alike';
import { own } from '../own';
import { apportion, asShares } from '../shares';
import type { BatchState, LineState, VesselState } from '../state';
import { isHydroxide } from '../classes';
import { contributionsIn, gateMissing, lineOf, noSuch, notItsTurn, notSettled, tooHeavy, unfit } from './checks';
import { allow, deny, draft, refusal, refuse, type Decider, type Decision } from './decision';

/** A line may also be weighed in another jug of its kind, part by part; hydroxide only in a cup for hydroxide. */
const fits = (line: LineState, vessel: VesselState, planned: VesselState | undefined): boolean => {
  if (vessel.plan.id === line.plan.vessel) return true;
  if (isHydroxide(line.plan)) return vessel.plan.use === 'hydroxide';
  const free = Object.keys(vessel.holds).every((held) => held === line.plan.id);
  return free && (vessel.plan.use === planned?.plan.use || vessel.plan.use === 'aside');
};

/** A jug that carries its part over: what is missing on its return is by now in the vessel it pours into. */
const carriedOver = (line: LineState, vessel: VesselState, gross: number): Draft | null => {
  const { standing, empty, contents, plan } = vessel;
  const to = line.plan.into ?? line.plan.vessel;
  if (plan.id === to || standing === null || empty === null || contents <= 0) return null;
  if (gross >= standing.gross || gross < empty - RECOGNISED_WITHIN) return null;
  const residue = mg(Math.min(contents, Math.max(0, gross - empty)));
  const mass = mg(contents - residue);
  if (mass === 0) return null;
  return draft('moved', { from: plan.id, to, mass, residue, shares: apportion(mass, asShares(vessel.holds)) });
};

const setDown = (line: LineState, vessel: VesselState, { body }: CommandOf<'set-vessel'>, before: readonly Draft[] = []): Decision => {
  const { instrument, gross, episode } = body;
  const zero = vessel.recount?.line === line.plan.id ? { zero: vessel.recount.zero } : {};
  const fresh = vessel.contents === 0 && vessel.deliveredTo === null && vessel.recount === null;
  const empty = fresh && line.plan.mode === 'gain' ? gross : null;
  return allow(...before, draft('vessel-set', { vessel: vessel.plan.id, line: line.plan.id, instrument, gross, empty, episode, ...zero }));
};

/** Whether the vessel weighs what the record expects: empty as known, or as it stood when it was last accepted. */
const placed = (state: BatchState, line: LineState, vessel: VesselState, command: CommandOf<'set-vessel'>): Decision => {
  const { gross, instrument, within = UNSTATED_WITHIN } = command.body;
  if (line.plan.mode === 'loss') {
    // A bottle comes back lighter when it was poured from: a new zero would swallow that pour.
    const pan = own(state.pans, instrument);
    const poured = pan?.line === line.plan.id && pan.zero - gross > within;
    return poured && command.role === 'program'
      ? refuse('wrong-vessel', { vessel: vessel.plan.id, gross, zero: pan.zero })
      : setDown(line, vessel, command);
  }
  const { standing, empty, contents, recount } = vessel;
  if (recount?.line === line.plan.id) {
    return gross < recount.zero - within
      ? refuse('wrong-vessel', { vessel: vessel.plan.id, gross, zero: recount.zero })
      : setDown(line, vessel, command);
  }
  if (standing === null) {
    const strange = contents === 0 && empty !== null && !alike(gross, empty, RECOGNISED_WITHIN);
    // A person may say that it is the vessel all the same; the program may not.
    return strange && command.role === 'program'
      ? refuse('wrong-vessel', { vessel: vessel.plan.id, gross, empty })
      : setDown(line, vessel, command);
  }
  const last = contributionsIn(state, vessel.plan.id).findLast(({ one }) => one.weighed !== null);
  if (alike(gross, standing.gross, shiftAllowed(within, last?.line.plan)) || last === undefined) return setDown(line, vessel, command);
  const moved = carriedOver(line, vessel, gross);
  if (moved !== null) return setDown(line, vessel, command, [moved]);
  const entry = last.one.entry;
  return allow(
    draft('weight-questioned', { entry, why: 'unlike-on-return', was: standing.gross, now: gross }),
    draft('alarm-raised', { code: 'mass-on-return', line: last.line.plan.id, instrument: command.body.instrument, detail: vessel.plan.id }),
  );
};

export const setVessel: Decider<'set-vessel'> = (state, command) => {
  const { body } = command;
  const line = lineOf(state, body.line);
  if (line === undefined) return deny(noSuch('line', body.line));
  const vessel = own(state.vessels, body.vessel);
  if (vessel === undefined) return deny(noSuch('vessel', body.vessel));
  const wrong = (): Refusal | null =>
    fits(line, vessel, own(state.vessels, line.plan.vessel))
      ? null
      : refusal('wrong-vessel', { vessel: body.vessel, wanted: line.plan.vessel });
  const no =
    notItsTurn(state, line) ??
    unfit(vessel.plan, isHydroxide(line.plan)) ??
    wrong() ??
    gateMissing(state, line.plan) ??
    notSettled(command, body.instrument, body.gross, body.episode, body.within) ??
    tooHeavy(command, body.instrument, body.gross);
  return no === null ? placed(state, line, vessel, command) : deny(no);
};

export const lift: Decider<'lift'> = (state, { body }) => {
  if (own(state.vessels, body.vessel) === undefined) return deny(noSuch('vessel', body.vessel));
  const last = contributionsIn(state, body.vessel).findLast(({ one }) => one.weighed !== null && one.kind === 'pour');
  const weighed = last?.one.weighed;
  if (last === undefined || weighed === null || weighed === undefined || !last.one.provisional) {
    return refuse('already-done', { vessel: body.vessel });
  }
  if (alike(body.gross, weighed.gross, shiftAllowed(body.within, last.line.plan))) {
    return allow(draft('vessel-lifted', { vessel: body.vessel, gross: body.gross }));
  }
  const pan = own(state.pans, weighed.instrument);
  // Lifted in the middle of the next pour: nothing is known yet of the weight before it.
  if (pan?.vessel === body.vessel && pan.line !== last.line.plan.id) return refuse('out-of-tolerance', { vessel: body.vessel });
  if (state.question !== null) return refuse('needs-answer', { to: 'question', entry: state.question.entry });
  const why = body.gross > weighed.gross ? 'shifted-up' : 'shifted-down';
  return allow(
    draft('weight-questioned', { entry: last.one.entry, why, was: weighed.gross, now: body.gross }),
    draft('alarm-raised', {
      code: 'vessel-changed',
      line: last.line.plan.id,
      instrument: weighed.instrument,
      detail: String(body.gross - weighed.gross),
    }),
  );
};
