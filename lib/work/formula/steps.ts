import type { VesselId } from '#lib/units/id';
import { meltingPlan, setsBelow } from '#lib/soap/melting';
import { PRECAUTIONS } from '../batch/precautions';
import type { MeltStep, Planned, WorkStep } from './answer';
import type { Pace } from './context';
import type { Facts } from './facts';
import type { Line } from './lines';
import type { Places } from './places';

const weigh = ({ plan, figures }: Line): WorkStep => ({ kind: 'weigh', line: plan.id, vessel: plan.vessel, pours: figures.pours.length });

/** The order of work with its safety steps, each where it matters. */
export const stepsOf = (lines: readonly Line[], places: Places, facts: Facts, peak: number | null): readonly WorkStep[] => {
  const of = (...phases: readonly string[]): readonly Line[] => lines.filter(({ plan }) => phases.includes(plan.phase));
  const hard = of('oils').filter(({ plan }) => plan.material.class === 'hard-oil');
  const melts = hard.flatMap(({ item }) => item.found.makeup.fats.flatMap(({ melting }) => (melting === null ? [] : [melting.high])));
  const hydroxide = of('hydroxide');
  // A stock lye is weighed into the jug itself: nothing goes into a liquid.
  const cups = [...new Set(hydroxide.map(({ plan }) => plan.vessel))].filter((id) => id !== places.jug?.id);
  const { joining, room, size } = facts;
  return [
    ...of('oils').map(weigh),
    ...(hard.length > 0
      ? [
          {
            kind: 'melt' as const,
            vessel: places.pot.id,
            above: melts.length === 0 ? null : Math.max(...melts),
            how: melted(of('oils'), facts),
          },
        ]
      : []),
    ...of('aside').map(weigh),
    ...of('liquid').map(weigh),
    ...stirred(lines, places),
    { kind: 'protect', items: PRECAUTIONS.hydroxide },
    ...hydroxide.map(weigh),
    ...lyeSteps(cups, places, room.celsius, peak),
    { kind: 'meet', low: joining.low, high: joining.high, apart: joining.apart },
    { kind: 'join', vessel: places.pot.id },
    ...of('trace').map(weigh),
    { kind: 'pour', moulds: size.moulds.map(({ id }) => id) },
  ];
};

/** What goes into the pot, as far as melting goes. */
export const fatsOf = (lines: readonly Line[]) =>
  lines
    .filter(({ plan }) => plan.phase === 'oils')
    .flatMap(({ item, figures }) =>
      item.found.makeup.fats.map(({ name, melting, mass }) => ({ fat: { name, melting }, grams: mass * figures.grams })),
    );

const melted = (oils: readonly Line[], { joining, room }: Facts): MeltStep | null => {
  const fats = fatsOf(oils);
  const wished = (joining.low + joining.high) / 2;
  const { order, heatTo, afterwards, maySet, pourAt } = meltingPlan(fats, room.celsius, wished);
  if (heatTo === null || afterwards === null) return null;
  return {
    order: names(order.map(({ fat }) => fat)),
    heatTo,
    afterwards,
    maySet: names(maySet),
    pourAt,
    wished,
    setsBelow: setsBelow(fats, joining.setsAt),
  };
};

const names = (all: readonly { readonly name: string }[]): readonly string[] => [...new Set(all.map(({ name }) => name))];

/** A dry acid or sugar weighed in its own cup goes into the liquid before any hydroxide does. */
const stirred = (lines: readonly Line[], { jug }: Places): readonly WorkStep[] =>
  lines.flatMap(({ item, plan }) =>
    jug !== null && item.inLye && plan.phase === 'aside' ? [{ kind: 'stir-in' as const, line: plan.id, into: jug.id }] : [],
  );

const lyeSteps = (cups: readonly VesselId[], { jug }: Places, celsius: number, peak: number | null): readonly WorkStep[] =>
  jug === null || cups.length === 0
    ? []
    : [
        { kind: 'confirm-cold', vessel: jug.id, celsius },
        ...cups.map((vessel): WorkStep => ({ kind: 'dissolve', vessel, into: jug.id, peak, slowly: true })),
      ];

/** Seconds by the maker's own pace; every weighing counts, and melting only when something must. */
export const timeOf = (lines: readonly Line[], pace: Pace | null): Planned['time'] => {
  if (pace === null) return null;
  const weighings = lines.reduce((sum, { figures }) => sum + figures.pours.length, 0);
  const melting = lines.some(({ plan }) => plan.material.class === 'hard-oil') ? pace.melting : 0;
  return { seconds: Math.round(weighings * pace.perLine + melting + pace.meeting + pace.pouring), how: pace.how };
};
