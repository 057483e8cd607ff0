import { milliCelsius } from '#lib/units/temperature';
import type { BatchState } from '../state';
import { changeVessel, offPan, pourOver, reopen, type Evolve } from './parts';

export const gateConfirmed: Evolve<'gate-confirmed'> = (state, entry) => {
  const { gate, line } = entry.body;
  const gateLines = line === null ? state.gateLines : { ...state.gateLines, [line]: entry.id };
  return { ...state, gates: { ...state.gates, [gate]: entry.id }, gateLines };
};

export const temperatureNoted: Evolve<'temperature-noted'> = (state, entry) => {
  const { use, value, source, why } = entry.body;
  if (why === 'peak') {
    if (use !== 'lye' && use !== 'mould') return state;
    return { ...state, tops: { ...state.tops, [use]: milliCelsius(Math.max(state.tops[use] ?? value, value)) } };
  }
  if (source !== 'by-hand') return state;
  const typed = { value, boot: entry.boot, mono: entry.mono, entry: entry.id };
  return { ...state, typedTemperatures: { ...state.typedTemperatures, [use]: typed } };
};

export const override: Evolve<'override'> = (state, entry) => ({
  ...state,
  overrides: { ...state.overrides, [entry.body.reason]: entry.id },
  overrideValues: { ...state.overrideValues, [entry.body.reason]: entry.body.superfat?.least ?? entry.body.value },
  counts: { ...state.counts, overrides: state.counts.overrides + 1 },
});

export const joined: Evolve<'joined'> = (state, entry) => {
  const { lye, oils, from = [], into = null } = entry.body;
  const marked: BatchState = { ...state, status: 'joined', joined: { lye, oils, mono: entry.mono, boot: entry.boot, wall: entry.wall } };
  if (into === null) return reopen(marked);
  const poured = from.reduce<BatchState>((before, vessel) => pourOver(before, vessel, into), marked);
  return reopen(changeVessel(offPan(poured, into), into, () => ({ state: 'joined', standing: null, recount: null })));
};

export const traceStamped: Evolve<'trace-stamped'> = (state, entry) => ({
  ...state,
  pour: { ...state.pour, trouble: entry.body.mark === 'wrong' ? 'which' : null },
  trace: [...state.trace, { mark: entry.body.mark, batter: entry.body.batter, wall: entry.wall, note: entry.body.note }],
});
