import { permissibleError, smallestWeight, USP_TOLERANCE, weighingSpread } from '#lib/measure/metrology';
import { mg, type Milligrams } from '#lib/units/mass';
import type { ScaleService } from './answer';
import type { Scale } from './context';
import { numberOf } from './figure';

/** A line as a scale sees it, milligrams. */
export interface Load {
  readonly target: number;
  /** Half-width the formula wants. */
  readonly wanted: number;
  /** Vessel and all that is in it when the line is full; `null` when the vessel's mass is not known. */
  readonly gross: number | null;
  /** What stands on the scale at least, whatever the vessel weighs. */
  readonly least: number;
}

const heaviest = ({ gross, least }: Load): number => gross ?? least;

const repeatabilityOf = ({ repeatability }: Scale): number | null => (repeatability === null ? null : numberOf(repeatability.value));

/** Standard deviation of a weighing on it, mg; `null` when its division is not known. */
export const spreadOf = (scale: Scale): number | null =>
  scale.division === null ? null : weighingSpread(repeatabilityOf(scale), scale.division);

export const holds = ({ capacity }: Scale, gross: number | null): boolean => capacity === null || gross === null || gross <= capacity;

/** A scale whose division nobody has said serves nothing that can be shown. */
export const resolves = (scale: Scale, wanted: number): boolean => {
  const spread = spreadOf(scale);
  return spread !== null && wanted >= 2 * spread;
};

export const serves = (scale: Scale, load: Load): boolean => holds(scale, heaviest(load)) && resolves(scale, load.wanted);

const finest = (all: readonly Scale[]): Scale | null =>
  all.toSorted((a, b) => (spreadOf(a) ?? Number.POSITIVE_INFINITY) - (spreadOf(b) ?? Number.POSITIVE_INFINITY))[0] ?? null;

/** The big scale where it can, else the fine one, else whichever tells apart best of those that can bear the load. */
export const scaleFor = (scales: readonly Scale[], load: Load): Scale | null => {
  const inOrder = scales.toSorted((a, b) => rank(a) - rank(b));
  const able = inOrder.filter((scale) => holds(scale, heaviest(load)));
  return able.find((scale) => serves(scale, load)) ?? finest(able) ?? inOrder[0] ?? null;
};

const rank = ({ role }: Scale): number => (role === 'main' ? 0 : 1);

/** Tolerance as the scale can show it: whole divisions, at least what it tells apart, else what was wanted. */
export const toleranceOn = (scale: Scale | null, wanted: number): Milligrams => {
  const least = Math.max(1, Math.floor(wanted));
  if (scale === null || scale.division === null) return mg(least);
  const { division } = scale;
  const floor = Math.ceil((2 * (spreadOf(scale) ?? 0)) / division) * division;
  return mg(Math.max(division, floor, Math.floor(wanted / division) * division));
};

export const serviceOf = (scale: Scale | null, load: Load, all: readonly Scale[]): ScaleService => {
  const could = all.filter((one) => serves(one, load));
  const neededDivision = could.length > 0 ? null : mg(Math.max(1, Math.floor(load.wanted / 0.82)));
  if (scale === null || scale.division === null) {
    const scaleName = scale === null ? null : scale.id;
    return { ...UNKNOWN, scale: scaleName, couldServe: could.map(({ name }) => name), neededDivision };
  }
  const { division } = scale;
  const repeatability = repeatabilityOf(scale);
  return {
    scale: scale.id,
    serves: serves(scale, load),
    smallest: mg(Math.ceil(smallestWeight(repeatability, division, load.wanted / load.target))),
    smallestUsp: mg(Math.ceil(smallestWeight(repeatability, division, USP_TOLERANCE))),
    r76: load.gross === null ? null : mg(Math.round(permissibleError('III', load.gross, division, 'service'))),
    couldServe: could.map(({ name }) => name),
    neededDivision,
    neverChecked: scale.repeatability === null,
  };
};

const UNKNOWN: ScaleService = {
  scale: null,
  serves: false,
  smallest: null,
  smallestUsp: null,
  r76: null,
  couldServe: [],
  neededDivision: null,
  neverChecked: true,
};
