import type { InstrumentId } from '#lib/units/id';
import type { MilliCelsius, MilliKelvin } from '#lib/units/temperature';
import { celsius, milliKelvin } from '#lib/units/temperature';
import type { ProbeUse } from '../reading';
import { boilingPoint, HIGHEST, LOWEST } from './boiling';

/** One point at which a probe was looked at: what it showed, and what it truly was there. */
export interface ProbePoint {
  readonly shown: MilliCelsius;
  readonly is: MilliCelsius;
}

/** What is known of a probe in one place from ice water and boiling water. */
export interface ProbeCheck {
  readonly id: string;
  readonly instrument: InstrumentId;
  readonly use: ProbeUse;
  readonly ice: ProbePoint | null;
  /** `metres`: the altitude its boiling point was taken for. */
  readonly boiling: (ProbePoint & { readonly metres: number }) | null;
}

/** A probe that is further off is broken, or does not stand in what a person says: it is not corrected but looked into. Common practice, no source. */
const MOST_OFF = milliKelvin(5_000);

/** Beside one another in the same water a probe moves less than this, or it has not settled yet. */
export const STILL = milliKelvin(200);

/** Where water boils at this altitude, as a point of a check; `null` for an altitude nobody works at. */
export const boilingMilli = (metres: number): MilliCelsius | null => {
  if (!(metres >= LOWEST && metres <= HIGHEST)) return null;
  return celsius(boilingPoint(metres).celsius);
};

export const checkId = (instrument: InstrumentId, use: ProbeUse): string => `${instrument}-${use}`.slice(0, 60);

export const offOf = ({ shown, is }: ProbePoint): MilliKelvin => milliKelvin(is - shown);

/**
 * What is added to a value the probe shows: one point moves every value alike, two a straight line through both (also beyond them). Whole
 * thousandths.
 */
export const correctionOf = ({ ice, boiling }: Pick<ProbeCheck, 'ice' | 'boiling'>, shown: MilliCelsius): MilliKelvin => {
  if (ice === null || boiling === null) {
    const one = ice ?? boiling;
    return one === null ? milliKelvin(0) : offOf(one);
  }
  const along = (shown - ice.shown) / (boiling.shown - ice.shown);
  return milliKelvin(Math.round(offOf(ice) + along * (offOf(boiling) - offOf(ice))));
};

export type CheckFault = 'too-far-off' | 'not-two-points' | 'not-its-point';

/** What is wrong with a check that otherwise has a sound shape. */
export const checkFaults = ({
  ice,
  boiling,
}: Pick<ProbeCheck, 'ice' | 'boiling'>): readonly (readonly [path: 'ice' | 'boiling', fault: CheckFault])[] => {
  if (ice !== null && ice.is !== 0) return [['ice', 'not-its-point']];
  if (boiling !== null && boiling.is !== boilingMilli(boiling.metres)) return [['boiling', 'not-its-point']];
  const far = (['ice', 'boiling'] as const).filter((name) => {
    const point = name === 'ice' ? ice : boiling;
    return point !== null && Math.abs(offOf(point)) > MOST_OFF;
  });
  if (far.length > 0) return far.map((name) => [name, 'too-far-off'] as const);
  // With both within 5 degrees of 0 and of a boiling point above 79 °C they always are; a forged one need not be.
  if (ice !== null && boiling !== null && boiling.shown - ice.shown < 10_000) return [['boiling', 'not-two-points']];
  return [];
};
