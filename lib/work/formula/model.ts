import type { MaterialClass } from '../batch/plan';
import type { Entry, Part } from './formula';
import type { Found } from './lookup';

/** A formula read: every number a number, every name found. Masses in grams, shares as fractions. */
export interface Model {
  readonly items: readonly Item[];
  readonly wishes: {
    readonly superfat: number | null;
    readonly lye: { readonly kind: 'concentration' | 'ratio'; readonly value: number } | null;
  };
  /** Fats as typed, where masses say it; `null` for a formula in shares alone. */
  readonly natural: number | null;
  readonly unweighed: readonly { readonly entry: string; readonly text: string }[];
}

export interface Item {
  readonly entry: Entry;
  /** "entries[2]" */
  readonly path: string;
  readonly part: Part;
  readonly class: MaterialClass;
  readonly found: Found;
  readonly amount: ItemAmount;
  /** Dissolved in the lye's liquid: counts in its mass. */
  readonly inLye: boolean;
}

export type ItemAmount =
  /** `of`: all fats, all liquid, all hydroxide by moles, the batter. */
  | { readonly kind: 'share'; readonly of: 'fats' | 'liquid' | 'hydroxide' | 'batter'; readonly fraction: number }
  | { readonly kind: 'mass'; readonly grams: number };

export const itemsOf = (model: Model, part: Part): readonly Item[] => model.items.filter((item) => item.part === part);
