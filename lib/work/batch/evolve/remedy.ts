import type { Evolve } from './parts';

export const remedyChosen: Evolve<'remedy-chosen'> = (state, { body }) => ({ ...state, over: null, wrong: null, toDo: body.acts });

export const remedyActDone: Evolve<'remedy-act-done'> = (state) => {
  const [done, ...toDo] = state.toDo;
  // Poured on, or out of the batch: either way it lies in its jug no more.
  const left = done?.kind === 'finish-pour' || done?.kind === 'leave' ? done.line : null;
  return { ...state, toDo, leftInJug: left === null ? state.leftInJug : state.leftInJug.filter(({ line }) => line !== left) };
};

export const wrongStated: Evolve<'wrong-stated'> = (state, entry) => {
  const { what, line, vessel, mass, basis } = entry.body;
  const stated = { ...state, wrong: { entry: entry.id, what, line } };
  if (what === 'left-in-jug' && line !== null && vessel !== null && mass !== null)
    return { ...stated, leftInJug: [...state.leftInJug.filter((one) => one.line !== line), { line, vessel, mass }] };
  if (basis === undefined || state.plan.basis === undefined) return stated;
  return { ...stated, plan: { ...state.plan, basis: { ...state.plan.basis, poured: basis } } };
};
