import { as, type BatchId, type InstrumentId, type VesselId } from '#lib/units/id';
import { mg, type Milligrams } from '#lib/units/mass';
import { toEntry } from '../complete';
import type { Begins } from '../decide/decision';
import { batterVessel } from '../decide/vessels';
import type { BasisValue, LinePlan, Plan, PlanBasis } from '../plan';
import type { Brought, Draft, Entry, Share, Weighed } from '../entries';
import { fold } from '../evolve/index';
import type { ScaleBasis } from '../poured/basis';
import { linesIn, potOf } from '../poured/pot';
import { inMass, lotted } from '../pouring/amounts';
import type { BatchState, LineState } from '../state';
import { wouldBe } from './after';
import { asideMark } from './aside-mark';
import { benchOf } from './bench';
import { NO_FACTS, type RemedyFacts } from './facts';
import { linesAsTheyStand } from './lines';
import { ownBatchOf } from './own-batch';
import { asItStands } from './programme';

const JUG = as<VesselId>('set-aside');

/** What left the pot, and how that is known. */
interface Left {
  readonly vessel: VesselId;
  readonly mass: Milligrams;
  readonly shares: readonly Share[];
  readonly weighed: Weighed | null;
}

interface Wanted {
  readonly line: LineState;
  readonly target: Milligrams;
  readonly division: number;
}

const wholeOf = (value: number): Milligrams => mg(Math.max(1, Math.round(value)));

/** A line of the batch set aside: as planned in all but how much of it; what went into the pot goes into the jug. */
const lineOf = ({ line, target, division }: Wanted, part: number, pot: VesselId | undefined): LinePlan => {
  const { part: _part, atOnce, into, ...plan } = line.plan;
  const goes = into ?? plan.vessel;
  // Nobody pours finer than a division of the scale.
  const tolerance = mg(Math.min(target, Math.max(wholeOf(line.planned.tolerance * part), division)));
  return {
    ...plan,
    target,
    tolerance,
    upper: plan.upper === null ? null : mg(target + tolerance),
    superfatPerGram: plan.superfatPerGram === null ? null : Math.round(plan.superfatPerGram / part),
    ...(goes === pot ? { vessel: JUG } : into === undefined ? {} : { into }),
    ...(atOnce !== undefined && target > atOnce ? { atOnce } : {}),
  };
};

const AMOUNTS: ReadonlySet<string> = new Set(['g', 'cm³']);

/** What the whole was asked to fill says nothing of a part of it; what comes in amounts is so much less. */
const workedOf = (worked: readonly BasisValue[], part: number): readonly BasisValue[] =>
  worked
    .filter(({ what }) => !what.startsWith('mould'))
    .map((one) =>
      AMOUNTS.has(one.unit) && one.what !== 'stays in the pot' ? { ...one, value: (Number(one.value) * part).toFixed(3) } : one,
    );

const basisOf = (basis: PlanBasis, lines: readonly LinePlan[], part: number): PlanBasis => {
  const has = new Set(lines.map(({ id }) => id));
  const { poured } = basis;
  return {
    ...basis,
    asked: basis.asked.filter(({ what }) => !what.startsWith('mould') && !what.startsWith('size by')),
    worked: workedOf(basis.worked, part),
    values: basis.values.filter(({ line }) => has.has(line)),
    ...(poured === undefined
      ? {}
      : {
          poured: {
            ...poured,
            sizing: poured.sizing === null ? null : { ...poured.sizing, brim: null },
            limits: { ...poured.limits, shares: poured.limits.shares.filter(({ line }) => has.has(line)) },
          },
        }),
  };
};

const factsOf = (scales: readonly ScaleBasis[]): RemedyFacts => ({
  ...NO_FACTS,
  scales: scales.map(({ instrument, role, division, capacity }) => ({ id: as<InstrumentId>(instrument), role, division, capacity })),
});

/** Into which moulds it goes nobody has said: none are named. */
const planOf = (state: BatchState, wanted: readonly Wanted[], part: number): Plan => {
  const { moulds: _moulds, parts: _parts, basis, ...plan } = state.plan;
  const pot = batterVessel(state)?.plan.id;
  const lines = wanted.map((one) => lineOf(one, part, pot));
  const jug = { id: JUG, name: 'jug set aside', use: 'oils', material: 'unstated', empty: null, brimMl: null } as const;
  return {
    ...plan,
    vessels: [...plan.vessels.filter(({ id }) => id !== JUG), jug],
    lines,
    ...(basis === undefined ? {} : { basis: basisOf(basis, lines, part) }),
  };
};

/** Tolerances and greatest weights of what is still to come, by what the formula asks of just this batch. */
const narrowed = (plan: Plan, begun: (plan: Plan) => BatchState | null, facts: RemedyFacts): Plan => {
  const state = begun(plan);
  const read = state === null ? null : potOf(state);
  if (state === null || read?.kind !== 'pot') return plan;
  const bench = benchOf(state, read.pot, facts);
  const moved = new Map(linesAsTheyStand(bench, asItStands(bench)).map((one) => [one.line, one]));
  return {
    ...plan,
    lines: plan.lines.map((line) => {
      const { tolerance, upper } = moved.get(line.id) ?? line;
      return { ...line, tolerance, upper };
    }),
  };
};

/**
 * The first entries of the batch that a mixture set aside becomes: its plan, what it holds already, and that it waits to be taken up.
 * `state`: the batch it leaves, before it has. `null` where nobody can say what it needs.
 */
export const setAside = (state: BatchState, left: Left, batch: BatchId, unchecked: readonly InstrumentId[]): Begins | null => {
  const read = potOf(state);
  const { vessel: _vessel, mass, shares, weighed } = left;
  if (read.kind !== 'pot') return null;
  const facts = factsOf(state.plan.basis?.poured?.scales ?? []);
  const { part, needs } = ownBatchOf(benchOf(state, read.pot, facts), shares);
  if (part <= 0) return null;
  const masses = new Map([...needs, ...shares].map((one) => [one.line, one.mass]));
  const wanted = linesIn(state).flatMap((line): readonly Wanted[] => {
    const target = masses.get(line.plan.id);
    const division = facts.scales.find(({ role }) => role === line.plan.scale)?.division ?? 1;
    return target === undefined ? [] : [{ line, target, division }];
  });
  const from: Brought = {
    batch: state.id,
    mark: state.mark,
    version: state.version + 1,
    vessel: JUG,
    mass,
    shares: shares.flatMap((share) => {
      const line = state.lines[share.line];
      return line === undefined ? [] : inMass(share.mass, lotted(line)).filter((one) => one.mass > 0);
    }),
    ...(weighed === null ? { source: 'by-hand' } : { weighed }),
  };
  const draftsOf = (plan: Plan): readonly Draft[] => [
    {
      kind: 'batch-started',
      body: { mark: asideMark(state), plan, bench: state.bench, uncheckedScales: unchecked, from },
    },
    ...shares.map(({ line, mass: actual }): Draft => ({ kind: 'line-closed', body: { line, outcome: 'within', actual } })),
  ];
  const begun = (plan: Plan): BatchState | null =>
    fold(draftsOf(plan).map((draft, at): Entry => toEntry(draft, { ...wouldBe(state, at + 1), batch })));
  const plan = narrowed(planOf(state, wanted, part), begun, facts);
  return { batch, drafts: [...draftsOf(plan), { kind: 'parked', body: { reason: `set aside from ${state.mark}` } }] };
};
