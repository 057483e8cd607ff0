import { mg } from '#lib/units/mass';
import type { AlarmCode } from '../entries';
import { own } from '../own';
import { allow, draft, refuse, type Decider } from './decision';

/** A scale further off than both is not the one to enter: something else lies on its pan. Common practice, no source. */
const UNLIKELY = { ofNominal: 0.05, divisions: 20 } as const;

/**
 * One known mass on an empty pan. Refused where by the record a vessel stands there, and where the difference is absurd: entered, it
 * would count as a check. A scale of which no division is known is held against the share alone.
 */
export const checkScale: Decider<'check-scale'> = (state, { body, observation }) => {
  const { settled } = observation;
  const { instrument, nominal } = body;
  if (nominal <= 0) return refuse('bad-number', { nominal });
  const pan = own(state.pans, instrument);
  if (pan !== undefined) return refuse('pan-not-empty', { instrument, vessel: own(state.vessels, pan.vessel)?.plan.name ?? pan.vessel });
  if (settled === null || settled.instrument !== instrument) return refuse('not-settled', { instrument });
  const shown = settled.gross;
  const difference = mg(shown - nominal);
  const likely = Math.max(UNLIKELY.ofNominal * nominal, UNLIKELY.divisions * (own(observation.division ?? {}, instrument) ?? 0));
  if (Math.abs(difference) > likely) return refuse('check-unlikely', { instrument, nominal, shown });
  return allow(draft('scale-checked', { instrument, nominal, shown, difference }));
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
