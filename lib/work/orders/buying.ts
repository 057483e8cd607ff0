import { addDays } from '#lib/units/day';
import type { Day } from '#lib/units/day';

/** What something is needed for: mg of a material, or pieces of a wrap. */
export interface Need {
  readonly thing: string;
  readonly amount: number;
  readonly day: Day;
  /** Mark of the batch, or of the bars it wraps. */
  readonly for: string;
}

/** What is known of getting it. Amounts as in `Need`. */
export interface Bought {
  readonly thing: string;
  /** On hand; may be below zero, when more was weighed than was ever noted as received. */
  readonly onHand: number;
  /** One pack of the supplier's; `null` where nobody has said: the bare amount stands. */
  readonly pack: number | null;
  /** Days until it is here; 0 where nobody has said. */
  readonly days: number;
}

export interface ToBuy {
  readonly thing: string;
  /** What is missing in all. */
  readonly short: number;
  readonly packs: number | null;
  /** With so many packs. */
  readonly amount: number;
  /** When the first batch that lacks it is poured. */
  readonly neededOn: Day;
  readonly orderBy: Day;
  /** It cannot be here in time any more, as far as is known. */
  readonly late: boolean;
  readonly for: readonly string[];
}

/** What is on hand goes to what comes first; what is short is a list in whole packs, the most urgent first. */
export const buyingList = (needs: readonly Need[], known: readonly Bought[], today: Day): readonly ToBuy[] => {
  const things = [...new Set(needs.map(({ thing }) => thing))];
  return things
    .flatMap((thing): readonly ToBuy[] => {
      const of = needs.filter((one) => one.thing === thing).toSorted((a, b) => a.day.localeCompare(b.day));
      const { onHand = 0, pack = null, days = 0 } = known.find((one) => one.thing === thing) ?? {};
      let left = onHand;
      const lacking = of.filter(({ amount }) => (left -= amount) < 0);
      const [first] = lacking;
      if (first === undefined) return [];
      const short = -left;
      const packs = pack === null ? null : Math.ceil(short / pack);
      const orderBy = addDays(first.day, -days);
      return [
        {
          thing,
          short,
          packs,
          amount: packs === null || pack === null ? short : packs * pack,
          neededOn: first.day,
          orderBy,
          late: orderBy < today,
          for: [...new Set(lacking.map((one) => one.for))],
        },
      ];
    })
    .toSorted((a, b) => a.orderBy.localeCompare(b.orderBy) || a.thing.localeCompare(b.thing));
};
