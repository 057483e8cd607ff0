import type { Card, JoiningCue } from '#lib/bench/cue';
import type { LiveProbe, LiveScale } from '#lib/protocol/live';
import type { LineState, VesselState } from '#lib/work/batch/index';
import type { LiveState } from './store';

const NO_CARDS: readonly Card[] = [];

const openLine = ({ frame, batch }: LiveState): LineState | null => {
  const id = frame?.cue.line ?? batch?.open ?? null;
  return id === null ? null : (batch?.lines[id] ?? null);
};
const shownVessel = (state: LiveState): VesselState | null => {
  const id = state.frame?.cue.vessel ?? openLine(state)?.plan.vessel ?? null;
  return id === null ? null : (state.batch?.vessels[id] ?? null);
};
/** The scale the cue speaks of, else the one its line wants, else the first. */
const shownScale = (state: LiveState): LiveScale | null => {
  const scales = state.frame?.scales ?? [];
  const id = state.frame?.cue.instrument ?? null;
  const role = openLine(state)?.plan.scale ?? 'main';
  return scales.find((scale) => scale.id === id) ?? scales.find((scale) => scale.role === role) ?? scales[0] ?? null;
};
/** Where the line itself belongs, whatever stands on the pan now. */
const ownVessel = (state: LiveState): VesselState | null => {
  const line = openLine(state);
  return line === null ? null : (state.batch?.vessels[line.plan.vessel] ?? null);
};
const ownScale = (state: LiveState): LiveScale | null => {
  const line = openLine(state);
  return line === null ? null : (state.frame?.scales.find(({ role }) => role === line.plan.scale) ?? null);
};
const probe =
  (use: LiveProbe['use']) =>
  ({ frame }: LiveState): LiveProbe | null =>
    frame?.probes.find((one) => one.use === use) ?? null;

/**
 * Everything a part of the bench reads. Each returns a primitive, or an object the store itself holds and shares between frames:
 * a test draws every one in React's strict mode and counts.
 */
export const see = {
  link: (state: LiveState) => state.link,
  stale: (state: LiveState) => state.stale,
  outdated: (state: LiveState) => state.outdated,
  realm: (state: LiveState) => state.standing?.realm ?? null,
  role: (state: LiveState) => state.standing?.role ?? null,
  boot: (state: LiveState) => state.standing?.boot ?? null,
  bench: (state: LiveState) => state.standing?.bench ?? null,
  mine: (state: LiveState) => state.lease?.mine ?? false,
  free: (state: LiveState) => state.lease !== null && state.lease.holder === null,
  lease: (state: LiveState) => state.lease,
  batch: (state: LiveState) => state.batch,
  mark: (state: LiveState) => state.batch?.mark ?? null,
  status: (state: LiveState) => state.batch?.status ?? null,
  unreadable: (state: LiveState) => state.unreadable,
  notice: (state: LiveState) => state.notice,
  /** A one-time code did not open this screen, and it still only watches. */
  codeRefused: ({ codeRefused, standing }: LiveState) => codeRefused && standing?.role !== 'maker',
  sending: (state: LiveState) => state.sending,
  phase: (state: LiveState) => state.frame?.cue.phase ?? null,
  line: openLine,
  vessel: shownVessel,
  scale: shownScale,
  ownVessel: (state: LiveState) => ownVessel(state)?.plan.name ?? null,
  ownScale: (state: LiveState) => ownScale(state)?.name ?? null,
  scales: (state: LiveState) => state.frame?.scales ?? null,
  probes: (state: LiveState) => state.frame?.probes ?? null,
  lye: probe('lye'),
  oils: probe('oils'),
  room: probe('room'),
  batter: probe('batter'),
  forecast: ({ stale, forecast }: LiveState) => (stale ? null : forecast),
  left: (state: LiveState) => state.frame?.cue.left ?? null,
  total: (state: LiveState) => state.frame?.cue.total ?? null,
  overshoot: (state: LiveState) => state.frame?.cue.overshoot ?? null,
  hand: (state: LiveState) => state.frame?.cue.hand ?? null,
  easeOff: (state: LiveState) => state.frame?.cue.easeOff ?? false,
  red: (state: LiveState) => state.frame?.cue.red ?? false,
  target: (state: LiveState) => state.frame?.cue.target ?? openLine(state)?.plan.target ?? null,
  tolerance: (state: LiveState) => state.frame?.cue.tolerance ?? openLine(state)?.plan.tolerance ?? null,
  division: (state: LiveState) => shownScale(state)?.division ?? null,
  acceptsIn: (state: LiveState) => state.frame?.cue.acceptsIn?.left ?? null,
  acceptsOf: (state: LiveState) => state.frame?.cue.acceptsIn?.of ?? null,
  settle: (state: LiveState) => state.frame?.cue.settle ?? null,
  block: (state: LiveState) => state.frame?.cue.block ?? null,
  doubt: (state: LiveState) => state.frame?.cue.doubts[0] ?? null,
  /** What carrying on would make of the superfat. */
  carried: (state: LiveState) => state.frame?.cue.cards.find(({ code }) => code === 'carry-on')?.remedy?.superfat ?? null,
  /** Whether carrying on would make it lye-heavy, or may. */
  carriedHeavy: (state: LiveState): 'is' | 'may' | null => {
    const card = state.frame?.cue.cards.find(({ code }) => code === 'carry-on');
    if (card?.why === 'lye-heavy') return 'is';
    return card?.remedy?.cautions.includes('may-be-lye-heavy') === true ? 'may' : null;
  },
  /** Strength of the lye, where carrying on takes just that out of its limits; ppm. */
  carriedLye: (state: LiveState): number | null =>
    state.frame?.cue.cards.find(({ code }) => code === 'carry-on')?.remedy?.matters.find(({ of }) => of === 'lye')?.value ?? null,
  cards: (state: LiveState) => state.frame?.cue.cards ?? NO_CARDS,
  selected: (state: LiveState) => state.frame?.cue.selected ?? -1,
  goOn: (state: LiveState) => state.frame?.cue.goOn ?? null,
  gate: (state: LiveState) => state.frame?.cue.gate ?? null,
  joining: (state: LiveState): JoiningCue | null => state.frame?.cue.joining ?? null,
  portion: (state: LiveState) => state.frame?.cue.portion?.at ?? null,
  portioned: (state: LiveState) => state.frame?.cue.portion?.mass ?? null,
  job: (state: LiveState) => state.frame?.cue.portion?.job ?? null,
  say: (state: LiveState) => state.frame?.cue.say ?? null,
  alarms: (state: LiveState) => state.frame?.alarms ?? null,
  sounding: (state: LiveState) => state.frame?.alarms.some((alarm) => !alarm.silenced) ?? false,
} as const;
