import { mg } from '#lib/units/mass';
import type { EntryOf } from '../entries';
import { NOTHING_POURED } from '../pouring/types';
import type { BatchState, LineState, VesselState } from '../state';
import type { LinePlan, VesselPlan } from '../plan';
import { reopen } from './parts';
import { brought } from './weights';

export const newLine = (plan: LinePlan): LineState => ({
  plan,
  planned: { target: plan.target, tolerance: plan.tolerance },
  contributions: [],
  actual: mg(0),
  status: 'waiting',
  outcome: null,
  byHand: false,
});

const newVessel = (plan: VesselPlan): VesselState => ({
  plan,
  state: 'empty',
  contents: mg(0),
  holds: {},
  deliveredTo: null,
  delivered: {},
  standing: null,
  empty: plan.empty,
  recount: null,
});

/** The state after the first entry of a batch. */
export const begin = (entry: EntryOf<'batch-started'>): BatchState => {
  const { plan, mark, bench, from } = entry.body;
  const bare: BatchState = {
    id: entry.batch,
    mark,
    realm: entry.realm,
    bench,
    version: entry.version,
    plan,
    startedWall: entry.wall,
    startedBy: entry.by,
    status: 'weighing',
    parkedFrom: null,
    boot: entry.boot,
    resumedInBoot: entry.boot,
    lines: Object.fromEntries(plan.lines.map((line) => [line.id, newLine(line)])),
    order: plan.lines.map((line) => line.id),
    vessels: Object.fromEntries(plan.vessels.map((vessel) => [vessel.id, newVessel(vessel)])),
    open: null,
    pans: {},
    consumed: { boot: entry.boot, episode: 0 },
    gates: {},
    gateLines: {},
    question: null,
    over: null,
    wrong: null,
    toDo: [],
    leftInJug: [],
    shelf: [],
    setAside: [],
    stirredIn: [],
    overrides: {},
    overrideValues: {},
    typedTemperatures: {},
    lyeForetold: null,
    tops: { lye: null, mould: null },
    away: null,
    joined: null,
    trace: [],
    alarms: {},
    checks: {},
    lostInstruments: [],
    parts: [],
    pour: NOTHING_POURED,
    counts: { overPours: 0, overrides: 0, byHand: 0 },
    endedWall: null,
  };
  return reopen(from === undefined ? bare : brought(bare, entry, from));
};
