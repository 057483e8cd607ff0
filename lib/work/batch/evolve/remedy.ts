import { comesIn } from '../comes-in';
import { own } from '../own';
import { pouredOf } from '../remedy/at-hand';
import type { WrongStated } from '../remedy/record';
import type { BatchState, Contribution } from '../state';
import { changeLine, type Evolve } from './parts';

const ofLot = (one: Contribution, lot: NonNullable<Contribution['lot']>): Contribution => (comesIn(one) ? { ...one, lot } : one);

export const remedyChosen: Evolve<'remedy-chosen'> = (state, { body }) => ({ ...state, over: null, wrong: null, toDo: body.acts });

export const remedyActDone: Evolve<'remedy-act-done'> = (state) => {
  const [done, ...toDo] = state.toDo;
  // Poured on, or out of the batch: either way it lies in its jug no more.
  const left = done?.kind === 'finish-pour' || done?.kind === 'leave' ? done.line : null;
  return { ...state, toDo, leftInJug: left === null ? state.leftInJug : state.leftInJug.filter(({ line }) => line !== left) };
};

/** Too little left of a line for what is still to come of it is wrong by itself; any other word about stock only narrows ways out. */
const isLacking = ({ lines }: BatchState, { line: id, mass, beside }: WrongStated): boolean => {
  const line = id === null ? undefined : own(lines, id);
  return beside !== true && line !== undefined && line.status !== 'closed' && line.plan.target - line.actual > (mass ?? 0);
};

const toldOf = (state: BatchState, { what, line: id, mass }: WrongStated): BatchState => {
  const line = id === null ? undefined : own(state.lines, id);
  if (line === undefined || id === null) return state;
  if (what === 'melted') return { ...state, stirredIn: [...state.stirredIn.filter((one) => one !== id), id] };
  if (mass === null) return state;
  // The newest word about a material counts.
  const others = state.shelf.filter((one) => own(state.lines, one.line)?.plan.material.id !== line.plan.material.id);
  return { ...state, shelf: [...others, { line: id, left: mass, had: pouredOf(state, line.plan) }] };
};

export const wrongStated: Evolve<'wrong-stated'> = (state, entry) => {
  const { what, line, vessel, mass, basis, lot } = entry.body;
  const wrong = { entry: entry.id, what, line };
  if (what === 'melted') return toldOf(state, entry.body);
  if (what === 'stock') return { ...toldOf(state, entry.body), wrong: isLacking(state, entry.body) ? wrong : state.wrong };
  const told = { ...state, wrong };
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
