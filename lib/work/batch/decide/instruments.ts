import { mg } from '#lib/units/mass';
import type { AlarmCode } from '../entries';
import { own } from '../own';
import { allow, draft, refuse, type Decider } from './decision';

/** One known mass on an empty pan. */
export const checkScale: Decider<'check-scale'> = (_state, { body, observation }) => {
  const { settled } = observation;
  if (body.nominal <= 0) return refuse('bad-number', { nominal: body.nominal });
  if (settled === null || settled.instrument !== body.instrument) return refuse('not-settled', { instrument: body.instrument });
  const { instrument, nominal } = body;
  return allow(draft('scale-checked', { instrument, nominal, shown: settled.gross, difference: mg(settled.gross - nominal) }));
};

export const raiseAlarm: Decider<'raise-alarm'> = (state, { body }) =>
  own(state.alarms, body.code) === undefined
    ? allow(draft('alarm-raised', { code: body.code, line: body.line, instrument: body.instrument, detail: body.detail }))
    : refuse('already-done', { code: body.code });

const OF_OVER: ReadonlySet<AlarmCode> = new Set(['over-pour', 'over-pour-red']);
const OF_QUESTION: ReadonlySet<AlarmCode> = new Set(['vessel-changed', 'mass-on-return']);

export const endAlarm: Decider<'end-alarm'> = (state, { body }) => {
  if (own(state.alarms, body.code) === undefined) return refuse('already-done', { code: body.code });
  // An alarm that asks something ends with its answer.
  if (state.over !== null && OF_OVER.has(body.code)) return refuse('needs-answer', { to: 'over', line: state.over.line });
  if (state.question !== null && OF_QUESTION.has(body.code)) {
    return refuse('needs-answer', { to: 'question', entry: state.question.entry });
  }
  return allow(draft('alarm-ended', { code: body.code }));
};

/** Silence is not an acknowledgement: the alarm stands, it only sounds no more. */
export const silence: Decider<'silence'> = (state, { body }) => {
  const alarm = own(state.alarms, body.code);
  if (alarm === undefined) return refuse('no-such', { what: 'alarm', id: body.code });
  return alarm.silenced ? refuse('already-done', { code: body.code }) : allow(draft('alarm-silenced', { code: body.code }));
};

export const loseInstrument: Decider<'lose-instrument'> = (state, { body }) =>
  state.lostInstruments.includes(body.instrument)
    ? refuse('already-done', { instrument: body.instrument })
    : allow(draft('instrument-lost', body));

export const regainInstrument: Decider<'regain-instrument'> = (state, { body }) =>
  state.lostInstruments.includes(body.instrument)
    ? allow(draft('instrument-back', body))
    : refuse('already-done', { instrument: body.instrument });

export const markClockJump: Decider<'mark-clock-jump'> = (_state, { body }) => allow(draft('clock-jumped', body));
