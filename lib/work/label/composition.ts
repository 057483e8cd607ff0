import { glycerolFrom } from '#lib/soap/reaction';
import { M_KOH, M_NAOH } from '#lib/soap/molar-mass';
import { outcomeAt } from '#lib/soap/poured/index';
import { sumOf } from '#lib/units/sum';
import { mg, type Milligrams } from '#lib/units/mass';
import type { BatchState } from '../batch/index';
import { mouldsOf } from '../batch/moulds';
import { asPoured } from '../batch/poured/as-poured';
import type { InMould } from './from-mould';
import { mixturesOf, type Mixtures } from './mixtures';
import type { LabelPart } from './parts';

/** What a bar lot is made of, as weighed. */
export interface Composition {
  readonly materials: readonly InMould[];
  /** `mould`: of its own moulds. `bounds`: a swirl whose shares nobody weighed, so that all that may be in it counts. `batch`: the whole batch. */
  readonly from: 'mould' | 'bounds' | 'batch';
  /** What its moulds hold in all, as weighed: of a swirl less than all that may be in it. `null`: nobody weighed every one of them. */
  readonly whole: Milligrams | null;
  /** What each single bar may be of; the strongest of them counts where a label must not say too little. */
  readonly mixtures: Mixtures;
  /** Superfat is not below zero: no hydroxide is left. `null`: it could not be worked out. */
  readonly bound: boolean | null;
}

const keyOf = ({ material, lot }: InMould): string => JSON.stringify([material.id, lot?.id ?? null]);

const added = (all: readonly InMould[]): readonly InMould[] => {
  const sums = new Map<string, InMould>();
  for (const one of all) {
    const before = sums.get(keyOf(one));
    const mass = before === undefined ? one.mass : before.mass === null || one.mass === null ? null : mg(before.mass + one.mass);
    sums.set(keyOf(one), { ...one, mass, high: mg((before?.high ?? 0) + one.high) });
  }
  return [...sums.values()];
};

const boundIn = (batch: BatchState): boolean | null => {
  const answer = asPoured(batch);
  if (answer.kind !== 'figures') return null;
  const { superfat } = outcomeAt(answer.pot, answer.masses.grams);
  return superfat === null ? null : superfat >= 0;
};

/**
 * What stands in some moulds of a batch; of a batch whose moulds nobody weighed, the whole of it: its order is the same.
 * @param cavities of each of them
 */
export const barsComposition = (batch: BatchState, moulds: readonly number[], cavities = 1): Composition => {
  const made = mouldsOf(batch).filter(({ n, materials }) => moulds.includes(n) && materials.length > 0);
  const bound = boundIn(batch);
  const mixtures = mixturesOf(batch, made, cavities);
  if (made.length > 0) {
    const materials = added(made.flatMap((one) => one.materials));
    const whole = made.every(({ mass }) => mass !== null) ? mg(sumOf(made, ({ mass }) => mass ?? 0)) : null;
    const apart = made.some(({ parts }) => parts.filter(({ high }) => high > 0).length > 1);
    return { materials, from: materials.every(({ mass }) => mass !== null) ? 'mould' : apart ? 'bounds' : 'batch', whole, bound, mixtures };
  }
  const materials = Object.values(batch.lines).flatMap(({ plan, actual }): readonly InMould[] =>
    actual > 0 ? [{ material: plan.material, lot: plan.lot, mass: actual, high: actual }] : [],
  );
  return { materials: added(materials), from: 'batch', whole: null, bound, mixtures };
};

const MOLAR = { NaOH: M_NAOH, KOH: M_KOH } as const;

/**
 * Glycerin that so much hydroxide sets free, all of it taken for triglycerides: for its place on a list that tells soap by its names. Free
 * acids and waxes set none free, so it is a little less.
 */
export const glycerinFormed = (hydroxides: readonly { readonly kind: keyof typeof MOLAR; readonly mass: Milligrams }[]): LabelPart => ({
  material: 'glycerin',
  name: 'Glycerin',
  inci: 'Glycerin',
  saponifiedAs: null,
  mass: mg(Math.round(1000 * glycerolFrom(sumOf(hydroxides, ({ kind, mass }) => mass / 1000 / MOLAR[kind])))),
  role: 'formed',
  allergens: {},
});
