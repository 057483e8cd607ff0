import type { Formula, Reference } from './formula';
import type { Model } from './model';
import type { Preparation } from './material';
import type { Reader } from './reader';
import { numberOf } from './figure';

/** One material of a paper, and between which percentages of the batter it may be. */
export interface Allowed {
  readonly kind: Reference['kind'];
  readonly number: string;
  readonly material: string;
  readonly low: number;
  readonly high: number;
}

const ALL = 100;

/** What the papers of a formula allow; a range that cannot be read is noted beside its field, and nothing is held against it unseen. */
export const allowedOf = ({ references }: Formula, reader: Reader): readonly Allowed[] =>
  references.flatMap(({ kind, number, ranges }, at) =>
    ranges.flatMap(({ material, low, high }, index): readonly Allowed[] => {
      const band = reader.band({ low, high }, `references[${at}].ranges[${index}]`, 0, ALL);
      return band === null ? [] : [{ kind, number, material, low: band[0], high: band[1] }];
    }),
  );

/** Deeper than anybody mixes; a preparation that holds itself was refused before. */
const DEEPEST = 20;

/** How much of a material one gram of what an id stands for brings, itself or inside a preparation. */
const holds = (preparations: ReadonlyMap<string, Preparation>, id: string, material: string, depth = 0): number => {
  if (id === material) return 1;
  const parts = depth > DEEPEST ? [] : (preparations.get(id)?.parts ?? []);
  return parts.reduce(
    (sum, part) => sum + ((numberOf(part.percent) ?? 0) / ALL) * holds(preparations, part.material, material, depth + 1),
    0,
  );
};

/** Grams of a material in the whole batch, what is in masterbatches and stock lyes included. */
export const gramsOf = ({ items }: Model, grams: readonly number[], preparations: readonly Preparation[], material: string): number => {
  const byId = new Map(preparations.map((one) => [one.id, one]));
  return items.reduce((sum, { found }, at) => sum + (grams[at] ?? 0) * holds(byId, found.id, material), 0);
};
