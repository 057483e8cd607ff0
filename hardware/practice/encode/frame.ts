import { NANOGRAMS_PER } from '#lib/units/mass';
import type { MassUnit } from '#lib/units/mass';

/** What a scale puts into one frame: a figure in its own unit, as whole steps of its last decimals. */
export interface ScaleFrame {
  /** `count` × 10^−`decimals` in `unit`. */
  readonly count: number;
  readonly decimals: number;
  readonly unit: MassUnit;
  readonly motion: 'stable' | 'moving';
  readonly range: 'in' | 'over' | 'under';
}

/** A display step of 1, 2 or 5 in the last decimal, as scales have. */
export interface DisplayStep {
  readonly by: 1 | 2 | 5;
  readonly decimals: number;
}

/** The finest 1-2-5 step of a unit that is no finer than the scale's division in mg: 0.1 g, 0.0001 kg, 0.005 oz, 0.0005 lb. */
export const stepIn = (unit: MassUnit, division: number): DisplayStep => {
  const ideal = (division * 1e6) / Number(NANOGRAMS_PER[unit]);
  for (let decimals = 7; decimals >= 0; decimals -= 1) {
    for (const by of [1, 2, 5] as const) if (by * 10 ** -decimals >= ideal * (1 - 1e-9)) return { by, decimals };
  }
  return { by: 1, decimals: 0 };
};

/** A mass in mg as the scale shows it in this unit. Shown to the nearest step, so always within half a step of the mass. */
export const figure = (mass: number, unit: MassUnit, step: DisplayStep): Pick<ScaleFrame, 'count' | 'decimals' | 'unit'> => {
  const inUnit = (mass * 1e6) / Number(NANOGRAMS_PER[unit]);
  const count = Math.round((inUnit * 10 ** step.decimals) / step.by) * step.by;
  return { count: count === 0 ? 0 : count, decimals: step.decimals, unit };
};

/** The figure without sign: `12.30`, `0.05`, `7`. */
export const digits = (frame: Pick<ScaleFrame, 'count' | 'decimals'>): string => {
  const text = String(Math.abs(frame.count)).padStart(frame.decimals + 1, '0');
  return frame.decimals === 0 ? text : `${text.slice(0, -frame.decimals)}.${text.slice(-frame.decimals)}`;
};

export const sign = (frame: Pick<ScaleFrame, 'count'>, plus: '+' | ' ' | ''): string => (frame.count < 0 ? '-' : plus);

export const ascii = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
