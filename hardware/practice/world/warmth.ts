import { createKettle, LYE_KETTLE, OILS_KETTLE } from './kettle';
import type { Kettle } from './kettle';
import { createProbe } from './probe';
import type { Probe } from './probe';
import { random } from './random';

export const WARM_PLACES = ['lye', 'oils', 'room'] as const;
export type WarmPlace = (typeof WARM_PLACES)[number];

/** Two vessels, the room they stand in, and a probe in each. */
export interface Warmth {
  readonly lye: Kettle;
  readonly oils: Kettle;
  readonly room: number;
  readonly probes: Readonly<Record<WarmPlace, Probe>>;
  /** Whether hydroxide has gone into the liquid. */
  readonly lyeMade: boolean;
  /** Hydroxide into liquid: the jump to about 80 °C, unless it is a stock lye. `false` when it is made already. */
  makeLye(heats?: boolean): boolean;
  /** Lye poured into the oils: one batter in their vessel, and a jug that takes on the room. `share`: the lye's part of the mass. */
  join(share: number): void;
  /** Vessels for another batch: melted oils, and water, or lye that was made a while ago. Time runs at its own pace again. */
  refill(lyeMade: boolean, heated?: boolean): void;
  /** How many times faster kettles cool and warm than the hands live. */
  hurry(times: number): void;
  celsius(place: WarmPlace): number;
  /** `dt` seconds of the world. */
  advance(dt: number): void;
}

/** Lye found at the start of a world, °C: made before a restart. */
const OLD_LYE = 50;

/** Specific heats, kJ/(kg K), of a strong lye and of melted fat: round values from memory. */
const LYE_HEAT = 3.4;
const OILS_HEAT = 2;

export const createWarmth = (seed: number): Warmth => {
  const mood = random(seed, 'room');
  const base = mood.between(19, 22);
  const phase = mood.between(0, 2 * Math.PI);
  const rise = random(seed, 'lye').between(59, 64);
  const lye = createKettle(LYE_KETTLE);
  const oils = createKettle(OILS_KETTLE);
  let elapsed = 0;
  let times = 1;
  let lyeMade = false;
  // A room breathes with its heating: half a degree over some three quarters of an hour.
  const room = (): number => base + 0.25 * Math.sin((2 * Math.PI * elapsed) / 2_700 + phase);
  const celsius = (place: WarmPlace): number => (place === 'room' ? room() : place === 'lye' ? lye.celsius : oils.celsius);
  const probeIn = (place: WarmPlace): Probe => createProbe(celsius(place), random(seed, `probe ${place}`));
  const probes = { lye: probeIn('lye'), oils: probeIn('oils'), room: probeIn('room') };
  return {
    lye,
    oils,
    get room() {
      return room();
    },
    probes,
    get lyeMade() {
      return lyeMade;
    },
    makeLye(heats = true) {
      if (lyeMade) return false;
      lyeMade = true;
      if (heats) lye.heat(rise);
      return true;
    },
    join(share) {
      const heat = { lye: share * LYE_HEAT, oils: (1 - share) * OILS_HEAT };
      oils.refill((heat.lye * lye.celsius + heat.oils * oils.celsius) / (heat.lye + heat.oils));
      lye.refill(room());
    },
    refill(made, heated = true) {
      lyeMade = made;
      times = 1;
      if (made && heated) lye.refill(OLD_LYE);
      else lye.refill(LYE_KETTLE.start, true);
      oils.refill(OILS_KETTLE.start, true);
    },
    hurry: (asked) => void (times = asked),
    celsius,
    advance(dt) {
      elapsed += dt * times;
      lye.advance(dt, room(), times);
      oils.advance(dt, room(), times);
      for (const place of WARM_PLACES) probes[place].advance(dt, celsius(place));
    },
  };
};
