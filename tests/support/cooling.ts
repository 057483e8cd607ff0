import { follow } from '#lib/soap/cooling/follow';
import { newVessel, type CoolingMemory } from '#lib/soap/cooling/memory';
import { outlook } from '#lib/soap/cooling/outlook';
import type { Contents, Forecast, Room } from '#lib/soap/cooling/types';

export const ROOM: Room = { kind: 'probe', celsius: 20 };
export const LYE: Contents = { kind: 'lye', setsBelow: null };
export const OILS: Contents = { kind: 'oils', setsBelow: 42 };

/** °C at a second. */
export type Curve = (t: number) => number;

/** ΔT falling by the power n, so that it takes `seconds` from one temperature to another in a room of 20 °C; solved by hand. */
export const cooling = (n: number, from: number, to: number, seconds: number, room = 20): Curve => {
  const [a, b] = [from - room, to - room];
  if (n === 1) return (t) => room + a * (b / a) ** (t / seconds);
  return (t) => room + (a ** (1 - n) + ((b ** (1 - n) - a ** (1 - n)) * t) / seconds) ** (1 / (1 - n));
};

/** As a probe with this last digit says it. */
export const inSteps =
  (curve: Curve, step: number): Curve =>
  (t) =>
    Math.round(curve(t) / step) * step;

/** A small noise that is the same each time: two sines that never meet. */
export const noisy =
  (curve: Curve, size = 0.05): Curve =>
  (t) =>
    curve(t) + size * (Math.sin(t * 12.9898) + Math.sin(t * 4.1414));

export interface Watching {
  readonly from?: number;
  readonly until: number;
  readonly every?: number;
  readonly room?: Room;
  readonly memory?: CoolingMemory;
  readonly contents?: Contents;
}

/** Follows a curve second by second. `null` on the curve: nothing was heard. */
export const watched = (
  curve: (t: number) => number | null,
  { from = 0, until, every = 1, room = ROOM, memory, contents = LYE }: Watching,
): CoolingMemory => {
  let now = memory ?? newVessel(contents);
  for (let t = from; t <= until; t += every) {
    const celsius = curve(t);
    if (celsius !== null) now = follow(now, { at: t, celsius }, room);
  }
  return now;
};

export const forecastAt = (memory: CoolingMemory, now: number, room: Room = ROOM): Forecast => {
  const found = outlook(memory, room, now);
  if (found.kind === 'none') throw new Error(`no forecast: ${found.why}`);
  return found;
};

/** The interval so many seconds ahead, between the moments that are given. */
export const rangeAt = ({ ahead }: Forecast, after: number): { readonly low: number; readonly middle: number; readonly high: number } => {
  const i = Math.max(
    1,
    ahead.findIndex((one) => one.after >= after),
  );
  const [a, b] = [ahead[i - 1], ahead[i]];
  if (a === undefined || b === undefined) throw new Error('beyond what is forecast');
  const part = (after - a.after) / (b.after - a.after);
  const at = (edge: 'low' | 'middle' | 'high'): number => a[edge] + part * (b[edge] - a[edge]);
  return { low: at('low'), middle: at('middle'), high: at('high') };
};
