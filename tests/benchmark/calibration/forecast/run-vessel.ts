import type { Random } from '../random';
import { handsAt, type DrawnRoom, type DrawnVessel } from './draw';
import { advance, NO_HANDS, type Hands, type VesselState } from './vessel-truth';

const DT = 1;
/** The same, where nobody looks at each second. */
const COARSE_DT = 2;

export const roomAt = ({ base, swing, periodS, phase }: DrawnRoom, t: number): number =>
  base + swing * Math.sin((2 * Math.PI * t) / periodS + phase);

/** A vessel living second by second, and the probe in it. */
export interface Living {
  readonly state: VesselState;
  /** One second on; what the probe says of it, `null` where it says nothing. */
  second(): number | null;
  readonly t: () => number;
}

export const live = (drawn: DrawnVessel, room: DrawnRoom, random: Random): Living => {
  const { probe, act } = drawn;
  const state: VesselState = { liquid: drawn.start, wall: drawn.start - 2, bath: act.celsius, set: 0, begun: false };
  let t = 0;
  let felt = drawn.start;
  let wandered = 0;
  let poured = false;
  return {
    state,
    t: () => t,
    second() {
      t += DT;
      if (act.kind === 'poured' && !poured && t >= act.from) {
        poured = true;
        state.liquid += ((act.celsius - state.liquid) * act.added) / (drawn.nature.liquid + act.added);
      }
      advance(state, grown(drawn, t), handsAt(drawn, t), roomAt(room, t), DT);
      wandered += (-wandered / 60) * DT + probe.wander * Math.sqrt(2 / 60) * random.gauss();
      const lifted = act.kind === 'lifted' && t >= act.from && t < act.until;
      const around = lifted ? roomAt(room, t) : state.liquid + wandered;
      felt += ((around - felt) / (lifted ? 2.5 * probe.lagS : probe.lagS)) * DT;
      const noise = probe.noise * random.gauss();
      const spike = random.unit() < probe.spikes ? random.between(-15, 15) : 0;
      if (t % probe.everyS !== 0 || probe.gaps.some(([from, until]) => t >= from && t < until)) return null;
      return probe.step * Math.round((felt + noise + spike) / probe.step);
    },
  };
};

/** With what was poured in. */
const grown = ({ nature, act }: DrawnVessel, t: number): DrawnVessel['nature'] =>
  act.kind === 'poured' && t >= act.from ? { ...nature, liquid: nature.liquid + act.added } : nature;

/** Over so many seconds it is told what an act changes. */
const CHANGED_S = 1200;

/** K by which the act of this vessel, done now, changes where its liquid stands twenty minutes later. */
export const changeBy = ({ state }: Living, drawn: DrawnVessel, room: DrawnRoom): number => {
  const { act, nature } = drawn;
  const [done, alone] = [{ ...state }, { ...state }];
  if (act.kind === 'poured') done.liquid += ((act.celsius - done.liquid) * act.added) / (nature.liquid + act.added);
  for (let t = act.from; t < act.from + CHANGED_S; t += DT) {
    advance(done, grown(drawn, t), handsAt(drawn, t), roomAt(room, t), DT);
    advance(alone, nature, NO_HANDS, roomAt(room, t), DT);
  }
  return Math.abs(done.liquid - alone.liquid);
};

/** Where the vessel goes from here if nobody does anything else: °C of the liquid every `everyS`, from now on. */
export const onward = (
  { state }: Living,
  drawn: DrawnVessel,
  room: DrawnRoom,
  { from, seconds, everyS }: { readonly from: number; readonly seconds: number; readonly everyS: number },
): readonly number[] => {
  const ahead = { ...state };
  const hands: Hands = handsAt(drawn, from);
  const nature = grown(drawn, from);
  const found = [ahead.liquid];
  for (let t = 0; t < seconds; t += COARSE_DT) {
    advance(ahead, nature, hands, roomAt(room, from + t), COARSE_DT);
    if ((t + COARSE_DT) % everyS === 0) found.push(ahead.liquid);
  }
  return found;
};
