import { as, type InstrumentId } from '#lib/units/id';
import { mg, type MassUnit } from '#lib/units/mass';
import { massOfText } from '#lib/units/mass-text';
import { monotonic } from '#lib/units/time';
import type { MassReading, Motion } from '#lib/measure/reading';
import type { Random } from './random';

export const SCALE: InstrumentId = as<InstrumentId>('truth-scale');

/** When frames come and what they say besides the figure. */
export interface WireTruth {
  /** Call once per step with the figure of this moment; hands over the frames that arrive now. */
  step(now: number, figure: number, division: number): readonly MassReading[];
  /** Frames of this long from now on never come. */
  loseUntil(moment: number): void;
  /** Frames are kept back until this moment and then come all at once. */
  holdUntil(moment: number): void;
  speak(unit: MassUnit): void;
}

const DECIMALS: Readonly<Record<number, number>> = { 10: 2, 100: 1, 500: 1, 1000: 0 };

const textIn = (unit: MassUnit, mass: number, division: number): string => {
  if (unit === 'g') return (mass / 1000).toFixed(DECIMALS[division] ?? 3);
  return unit === 'oz' ? (mass / 28_349.523).toFixed(3) : (mass / 453_592.37).toFixed(4);
};

/** Says "stable" after this long without a change of more than a division; a lying one says it early. */
interface Flag {
  readonly after: number;
  readonly spoken: boolean;
}

export const createWire = (random: Random): WireTruth => {
  const period = 1000 / random.between(5, 20);
  const jitter = random.between(0.02, 0.15) * period;
  const poll = random.chance(0.5) ? 16 : 1;
  const flag: Flag = { spoken: random.chance(0.5), after: random.chance(0.6) ? random.between(500, 1200) : random.between(100, 300) };
  let due = random.between(0, period);
  let lostUntil = -1;
  let heldUntil = -1;
  let unit: MassUnit = 'g';
  let seq = 0;
  let calmFrom = 0;
  let calmAt = 0;
  let waiting: { readonly figure: number; readonly motion: Motion }[] = [];

  const motionOf = (now: number, figure: number, division: number): Motion => {
    if (Math.abs(figure - calmAt) > division) {
      calmAt = figure;
      calmFrom = now;
    }
    if (!flag.spoken) return 'unstated';
    return now - calmFrom >= flag.after ? 'stable' : 'moving';
  };

  const frame = (now: number, figure: number, division: number, motion: Motion): MassReading => {
    seq += 1;
    const text = textIn(unit, figure, division);
    const stated = massOfText(text, unit);
    return {
      kind: 'mass',
      instrument: SCALE,
      seq,
      at: monotonic(Math.ceil(now / poll) * poll),
      raw: RAW,
      text,
      unit,
      mass: stated?.mass ?? null,
      step: stated?.step ?? mg(division),
      motion,
      range: 'in',
      weighing: 'gross',
    };
  };

  return {
    step(now, figure, division) {
      const motion = motionOf(now, figure, division);
      if (now >= due) {
        // Now and then the machine is busy and a frame comes late.
        due += Math.max(10, period + jitter * random.gauss()) + (random.chance(0.004) ? random.between(80, 250) : 0);
        if (now >= lostUntil) waiting.push({ figure, motion });
      }
      if (now < heldUntil || waiting.length === 0) return [];
      const come = waiting.map((one) => frame(now, one.figure, division, one.motion));
      waiting = [];
      return come;
    },
    loseUntil: (moment) => void (lostUntil = moment),
    holdUntil: (moment) => void (heldUntil = moment),
    speak: (spoken) => void (unit = spoken),
  };
};

const RAW = new Uint8Array([0x53, 0x54, 0x2c, 0x30]);
