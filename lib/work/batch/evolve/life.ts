import type { BatchState } from '../state';
import type { Evolve } from './parts';

export const wentAway: Evolve<'went-away'> = (state, { body }) => ({ ...state, away: { line: body.line, gross: body.gross } });

export const cameBack: Evolve<'came-back'> = (state) => ({ ...state, away: null });

/** What a person vouched for in other circumstances does not carry over. */
const unvouched = { gates: {}, gateLines: {}, overrides: {}, overrideValues: {} } satisfies Partial<BatchState>;

export const resumed: Evolve<'resumed'> = (state, entry) => {
  const { contents } = entry.body;
  // The zero still holds when only known or newly poured material is in the vessel; otherwise it is taken anew.
  const pans = contents === 'as-recorded' || contents === 'poured-more' ? state.pans : {};
  return { ...state, ...unvouched, pans, away: null, resumedInBoot: entry.boot };
};

export const parked: Evolve<'parked'> = (state) => ({
  ...state,
  ...unvouched,
  status: 'parked',
  parkedFrom: state.status === 'joined' ? 'joined' : 'weighing',
  pans: {},
  away: null,
});

export const takenUp: Evolve<'taken-up'> = (state, { body: { moulds } }) => ({
  ...state,
  ...(moulds && { plan: { ...state.plan, moulds } }),
  status: state.parkedFrom ?? 'weighing',
  parkedFrom: null,
});

const ended = { pans: {}, alarms: {}, away: null, open: null } satisfies Partial<BatchState>;

export const abandoned: Evolve<'abandoned'> = (state, entry) => ({ ...state, ...ended, status: 'abandoned', endedWall: entry.wall });

export const closed: Evolve<'closed'> = (state, entry) => ({ ...state, ...ended, status: 'closed', endedWall: entry.wall });

export const noted: Evolve<'noted'> = (state, { body }) =>
  body.deviation === true ? { ...state, counts: { ...state.counts, stated: (state.counts.stated ?? 0) + 1 } } : state;
