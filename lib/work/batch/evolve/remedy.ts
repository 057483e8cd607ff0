import type { Contribution } from '../state';
import { changeLine, type Evolve } from './parts';

const ofLot = (one: Contribution, lot: NonNullable<Contribution['lot']>): Contribution =>
  one.kind === 'pour' || one.kind === 'typed' ? { ...one, lot } : one;

export const remedyChosen: Evolve<'remedy-chosen'> = (state, { body }) => ({ ...state, over: null, wrong: null, toDo: body.acts });

export const remedyActDone: Evolve<'remedy-act-done'> = (state) => {
  const [done, ...toDo] = state.toDo;
  // Poured on, or out of the batch: either way it lies in its jug no more.
  const left = done?.kind === 'finish-pour' || done?.kind === 'leave' ? done.line : null;
  return { ...state, toDo, leftInJug: left === null ? state.leftInJug : state.leftInJug.filter(({ line }) => line !== left) };
};

export const wrongStated: Evolve<'wrong-stated'> = (state, entry) => {
  const { what, line, vessel, mass, basis, lot } = entry.body;
  const told = { ...state, wrong: { entry: entry.id, what, line } };
  // Its weights stand; all of them were of this lot.
  const stated =
    lot === undefined || line === null
      ? told
      : changeLine(told, line, ({ contributions }) => ({ contributions: contributions.map((one) => ofLot(one, lot)) }));
  if (what === 'left-in-jug' && line !== null && vessel !== null && mass !== null)
    return { ...stated, leftInJug: [...state.leftInJug.filter((one) => one.line !== line), { line, vessel, mass }] };
  if (basis === undefined || state.plan.basis === undefined) return stated;
  return { ...stated, plan: { ...state.plan, basis: { ...state.plan.basis, poured: basis } } };
};
