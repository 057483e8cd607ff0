import { own } from '../own';
import type { Evolve } from './parts';

export const scaleChecked: Evolve<'scale-checked'> = (state, entry) => ({
  ...state,
  checks: { ...state.checks, [entry.body.instrument]: { entry: entry.id, nominal: entry.body.nominal, difference: entry.body.difference } },
});

export const alarmRaised: Evolve<'alarm-raised'> = (state, entry) => {
  const { code, line, detail, over } = entry.body;
  const raised = { ...state, alarms: { ...state.alarms, [code]: { entry: entry.id, silenced: false, line, detail } } };
  const last =
    line === null
      ? undefined
      : own(state.lines, line)?.contributions.findLast((one) => one.struck === null && (one.kind === 'pour' || one.kind === 'typed'));
  if (over === undefined || line === null || last === undefined) return raised;
  return {
    ...raised,
    over: { line, by: over.by, red: code === 'over-pour-red', entry: last.entry },
    counts: { ...state.counts, overPours: state.counts.overPours + (over.again === true ? 0 : 1) },
  };
};

export const alarmEnded: Evolve<'alarm-ended'> = (state, { body }) => {
  const { [body.code]: _ended, ...alarms } = state.alarms;
  return { ...state, alarms };
};

export const alarmSilenced: Evolve<'alarm-silenced'> = (state, { body }) => {
  const alarm = own(state.alarms, body.code);
  return alarm === undefined ? state : { ...state, alarms: { ...state.alarms, [body.code]: { ...alarm, silenced: true } } };
};

export const instrumentLost: Evolve<'instrument-lost'> = (state, { body }) => ({
  ...state,
  lostInstruments: [...state.lostInstruments.filter((id) => id !== body.instrument), body.instrument],
});

export const instrumentBack: Evolve<'instrument-back'> = (state, { body }) => ({
  ...state,
  lostInstruments: state.lostInstruments.filter((id) => id !== body.instrument),
});

export const clockJumped: Evolve<'clock-jumped'> = (state) => state;
