import { follow } from '#lib/soap/cooling/follow';
import { newVessel, type CoolingMemory } from '#lib/soap/cooling/memory';
import { outlook } from '#lib/soap/cooling/outlook';
import type { Mark, Outlook, Room } from '#lib/soap/cooling/types';
import { meetingOf } from '#lib/soap/meeting/meeting';
import type { Terms } from '#lib/soap/meeting/types';
import { createRandom, type Random } from '../random';
import { drawAlone, drawRoom, drawVessel, type DrawnRoom, type DrawnVessel } from './draw';
import { changeBy, live, onward, type Living } from './run-vessel';
import { AHEAD_MIN, judgeMeeting, judgeRanges, type Tally } from './tally';

const WATCHED_S = 3600;
const FORECAST_EVERY_S = 120;
const MEETING_EVERY_S = 300;
const PATH_STEP_S = 10;
const THREE_HOURS_S = 10_800;

interface Followed {
  readonly drawn: DrawnVessel;
  readonly living: Living;
  memory: CoolingMemory;
  heardAt: number | null;
  /** For how long the probe was heard during what is done, s. */
  heardDuring: number;
  answered: boolean;
  /** K that the act changes in twenty minutes; `null` until it is done. */
  change: number | null;
}

/** Two vessels of one bench for an hour, forecast as the bench would, and held against where they truly go. */
export const runPair = (seed: number, index: number, tally: Tally): void => {
  const random = createRandom(seed, index);
  const room = drawRoom(random);
  const told: Room = room.told === null ? null : { kind: 'probe', celsius: room.told };
  const [lye, oils] = [followed(drawVessel('lye', random), room, random), followed(drawVessel('oils', random), room, random)];
  const sets = oils.drawn.nature.setting?.at ?? null;
  const terms: Terms = { low: 30, high: 50, setsAt: sets, settingMargin: 2, apart: 6, apartLevel: 'hold', milkLimit: null };
  let met = false;
  for (let t = 1; t <= WATCHED_S; t += 1) {
    for (const vessel of [lye, oils]) hear(vessel, t, room, told);
    if (t % 20 === 0) for (const vessel of [lye, oils]) tooEarly(vessel, t, told, tally);
    if (t % FORECAST_EVERY_S === 0) for (const vessel of [lye, oils]) judgeVessel(vessel, room, told, t, tally);
    if (t % MEETING_EVERY_S === 0) {
      const meeting = meetingOf(outlook(lye.memory, told, t), outlook(oils.memory, told, t), terms, null);
      if (meeting.kind === 'meeting' && t <= 900) met = true;
      judgeMeeting(meeting, firstTrue(lye, oils, room, terms, t), tally);
    }
  }
  for (const vessel of [lye, oils]) count(vessel, tally);
  tally.pairs += 1;
  if (met) tally.pairsAnswered += 1;
};

/** Two vessels that nobody touches for an hour: whatever is marked is marked wrongly, but a fat that sets. */
export const runAlone = (seed: number, index: number, tally: Tally): void => {
  const random = createRandom(seed, index);
  const room = drawRoom(random);
  const told: Room = room.told === null ? null : { kind: 'probe', celsius: room.told };
  for (const kind of ['lye', 'oils'] as const) {
    const vessel = followed(drawAlone(kind, random), room, random);
    for (let t = 1; t <= WATCHED_S; t += 1) hear(vessel, t, room, told);
    countFalse(vessel, tally);
  }
};

const followed = (drawn: DrawnVessel, room: DrawnRoom, random: Random): Followed => {
  const { kind } = drawn.nature;
  // Half of the makers whose oils set nothing have not said so.
  const setsBelow = kind === 'oils' && (drawn.nature.setting !== null || random.chance(0.5)) ? 42 : null;
  const memory = newVessel({ kind, setsBelow });
  return { drawn, living: live(drawn, room, random), memory, heardAt: null, heardDuring: 0, answered: false, change: null };
};

const hear = (vessel: Followed, t: number, room: DrawnRoom, told: Room): void => {
  const { act, probe } = vessel.drawn;
  if (vessel.change === null && t >= act.from) vessel.change = changeBy(vessel.living, vessel.drawn, room);
  const celsius = vessel.living.second();
  if (celsius === null) return;
  vessel.memory = follow(vessel.memory, { at: t, celsius }, told);
  vessel.heardAt = t;
  if (t > act.from && t <= act.until) vessel.heardDuring += probe.everyS;
};

const judgeVessel = (vessel: Followed, room: DrawnRoom, told: Room, t: number, tally: Tally): void => {
  const { drawn, living, memory } = vessel;
  const forecast = outlook(memory, told, t);
  tally.asked += 1;
  if (forecast.kind === 'none') {
    tally.reasons.set(forecast.why, (tally.reasons.get(forecast.why) ?? 0) + 1);
    return;
  }
  if (t <= 900) vessel.answered = true;
  const path = onward(living, drawn, room, { from: t, seconds: 60 * (AHEAD_MIN.at(-1) ?? 0), everyS: 60 });
  const group = `${drawn.nature.kind}, ${drawn.act.kind}: ${t < drawn.act.from ? 'before' : 'after'}`;
  judgeRanges(forecast, path, [drawn.nature.kind, group], tally);
};

/** A forecast that rests on what cannot be known yet, by the simulation's own clock. */
const tooEarly = (vessel: Followed, t: number, room: Room, tally: Tally): void => {
  const { drawn, living, memory, heardAt, heardDuring } = vessel;
  const said: Outlook = outlook(memory, room, t);
  if (said.kind === 'none') return;
  const { act } = drawn;
  const since = t - act.from;
  const over = living.state.liquid - (room?.celsius ?? 22);
  if (t < 160) tally.tooEarly.push('first minutes');
  if (heardAt === null || t - heardAt > 120) tally.tooEarly.push('silent');
  if (act.kind === 'lifted' && since > 80 && t < act.until && over > 10) tally.tooEarly.push('probe out');
  // A hob that a gap hides cannot be seen.
  if (act.kind === 'hob' && heardDuring > 100 && t < act.until) tally.tooEarly.push('on the hob');
};

/** An act is noticed in time, or a person has long seen it. */
const IN_TIME_S = 1200;
/** Marks so long after an act may still be of it, s: a bath is taken out again. */
const AFTER_S = 900;

const count = (vessel: Followed, tally: Tally): void => {
  const { drawn, memory, answered, change } = vessel;
  tally.vessels += 1;
  if (answered) tally.answered += 1;
  const { kind, from } = drawn.act;
  const first = memory.marks.find(({ noticed }) => noticed >= from && noticed - from < IN_TIME_S);
  const noticed = tally.noticed.get(kind) ?? [];
  noticed.push({ after: first === undefined ? Number.POSITIVE_INFINITY : first.noticed - from, change: change ?? 0 });
  tally.noticed.set(kind, noticed);
  countFalse(vessel, tally);
};

/** What was marked while nothing was done, and for how long nothing was. A fat that sets is no mistake, nor that it warms its oils. */
const countFalse = ({ drawn, memory }: Followed, tally: Tally): void => {
  const { from, until } = drawn.act;
  const last = Math.min(until, WATCHED_S) + AFTER_S;
  const sets = drawn.nature.setting !== null;
  const isFalse = ({ turn, noticed }: Mark): boolean =>
    (noticed < from || noticed > last) && !(sets && (turn === 'sets' || turn === 'warms'));
  tally.falseMarks += memory.marks.filter(isFalse).length;
  tally.quietS += Math.min(from, WATCHED_S) + Math.max(0, WATCHED_S - last);
};

/** When they truly meet if nobody does anything more, s from now; infinite: not within three hours. */
const firstTrue = (lye: Followed, oils: Followed, room: DrawnRoom, terms: Terms, from: number): number => {
  const way = (vessel: Followed): readonly number[] =>
    onward(vessel.living, vessel.drawn, room, { from, seconds: THREE_HOURS_S, everyS: PATH_STEP_S });
  const pot = way(oils);
  const foot = terms.setsAt === null ? terms.low : Math.max(terms.low, terms.setsAt + terms.settingMargin);
  const i = way(lye).findIndex((celsius, at) => {
    const other = pot[at] ?? Number.NaN;
    return (
      celsius >= terms.low && celsius <= terms.high && other >= foot && other <= terms.high && Math.abs(celsius - other) <= terms.apart
    );
  });
  return i === -1 ? Number.POSITIVE_INFINITY : i * PATH_STEP_S;
};
