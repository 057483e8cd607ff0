import { own } from '../own';
import { newLine } from './begin';
import { changeLine, reopen, type Evolve } from './parts';

export const replanned: Evolve<'replanned'> = (state, { body }) => {
  const changed = body.lines.map((plan) => {
    const line = own(state.lines, plan.id);
    return [plan.id, line === undefined ? newLine(plan) : { ...line, plan }] as const;
  });
  const lines = { ...state.lines, ...Object.fromEntries(changed) };
  const added = body.lines.filter((plan) => own(state.lines, plan.id) === undefined).map((plan) => plan.id);
  return reopen({ ...state, lines, order: [...state.order, ...added] });
};

export const lotChosen: Evolve<'lot-chosen'> = (state, { body }) =>
  changeLine(
    body.despite === undefined ? state : { ...state, counts: { ...state.counts, overrides: state.counts.overrides + 1 } },
    body.line,
    (line) => ({ plan: { ...line.plan, lot: body.lot } }),
  );

export const lineClosed: Evolve<'line-closed'> = (state, { body }) =>
  reopen(changeLine(state, body.line, () => ({ status: 'closed', outcome: body.outcome })));

export const lineReopened: Evolve<'line-reopened'> = (state, { body }) =>
  reopen(changeLine(state, body.line, () => ({ status: 'waiting', outcome: null })));
