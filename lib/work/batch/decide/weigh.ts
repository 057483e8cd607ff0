import { mg } from '#lib/units/mass';
import type { CommandOf, Refusal } from '../commands';
import { own } from '../own';
import type { BatchState, LineState } from '../state';
import { verdictOf } from '../verdict';
import { isHydroxide } from '../classes';
import { gateMissing, lineOf, noSuch, notFromScale, notItsTurn } from './checks';
import { allow, deny, draft, refusal, refuse, type Decider } from './decision';
import { afterPour } from './pour';

/** A weight counts from the zero of its own vessel on its own pan, and says what it says. */
const wrongPan = (state: BatchState, line: LineState, { body }: CommandOf<'accept'>): Refusal | null => {
  const { weighed, vessel } = body;
  const pan = own(state.pans, weighed.instrument);
  if (pan === undefined || pan.vessel !== vessel || pan.line !== line.plan.id) {
    return refusal('wrong-vessel', { vessel, wanted: line.plan.vessel, on: pan?.vessel ?? '' });
  }
  const sign = line.plan.mode === 'loss' ? -1 : 1;
  const wrong = weighed.zero !== pan.zero || weighed.net !== sign * (weighed.gross - weighed.zero) || weighed.net <= 0 || weighed.step <= 0;
  return wrong ? refusal('bad-number', { net: weighed.net, zero: weighed.zero, gross: weighed.gross }) : null;
};

/** What a program may never say for a person, and what only a deliberate hold may. */
const unvouched = (line: LineState, { body, role }: CommandOf<'accept'>): Refusal | null => {
  const { how } = body;
  if (how === 'typed') return refusal('wrong-state', { how });
  if (role === 'program' && how !== 'by-itself') return refusal('not-yours', { role, how });
  if (isHydroxide(line.plan)) return how === 'held' ? null : refusal('needs-hold', { line: line.plan.id });
  if (how !== 'by-itself') return null;
  if (line.plan.lot === null) return refusal('needs-lot', { line: line.plan.id });
  return body.part || body.shortIsFine ? refusal('needs-hold', { line: line.plan.id }) : null;
};

export const accept: Decider<'accept'> = (state, command) => {
  const { body } = command;
  const { weighed } = body;
  const line = lineOf(state, body.line);
  if (line === undefined) return deny(noSuch('line', body.line));
  const no =
    notItsTurn(state, line) ??
    gateMissing(state, line.plan) ??
    unvouched(line, command) ??
    wrongPan(state, line, command) ??
    notFromScale(command, weighed);
  if (no !== null) return deny(no);
  const total = mg(line.actual + weighed.net);
  if (verdictOf(line.plan, total) === 'short' && !body.part && !body.shortIsFine) {
    return refuse('out-of-tolerance', { line: body.line, short: line.plan.target - total });
  }
  const { how, part, vessel, eased } = body;
  const on = { vessel, instrument: weighed.instrument, gross: weighed.gross, episode: weighed.episode };
  return allow(
    draft('weight-accepted', {
      line: body.line,
      vessel,
      weighed,
      how,
      part,
      lot: line.plan.lot,
      ...(eased === undefined ? {} : { eased }),
    }),
    ...afterPour(state, line, total, on, part ? 'part' : 'fine'),
  );
};

export const typeWeight: Decider<'type-weight'> = (state, command) => {
  const { typed, readBack, part, held = false, shortIsFine = false } = command.body;
  const line = lineOf(state, command.body.line);
  if (line === undefined) return deny(noSuch('line', command.body.line));
  const no = notItsTurn(state, line) ?? gateMissing(state, line.plan);
  if (no !== null) return deny(no);
  // Nothing more may be typed too: a line that lost some is enough as it is.
  if (typed.net < 0 || (typed.net === 0 && line.actual <= 0)) return refuse('bad-number', { net: typed.net });
  if (!readBack) return refuse('needs-read-back', { net: typed.net });
  if (isHydroxide(line.plan) && !held) return refuse('needs-hold', { line: line.plan.id });
  const total = mg(line.actual + typed.net);
  if (verdictOf(line.plan, total) === 'short' && !part && !shortIsFine) {
    return refuse('out-of-tolerance', { line: line.plan.id, short: line.plan.target - total });
  }
  return allow(
    draft('weight-typed', { line: line.plan.id, vessel: line.plan.vessel, typed, part, lot: line.plan.lot }),
    ...afterPour(state, line, total, null, part ? 'part' : 'fine'),
  );
};
