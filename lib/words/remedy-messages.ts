import type { RemedyClash, RemedyKind } from '#lib/work/batch/remedy/types';

/** What a card names, already in the person's units. */
export interface RemedyNamed {
  readonly of: string | null;
  readonly mass: string | null;
  /** Of changes, where there are several. */
  readonly count: number;
  /** The first few of them. */
  readonly moves?: readonly RemedyMove[];
  /** What comes out besides. */
  readonly taken?: string | null;
}

export interface RemedyMove {
  readonly of: string;
  readonly mass: string;
  readonly less: boolean;
}

/** "15.2 g coconut oil, 4.2 g sodium hydroxide and 1 more": how much of what. */
const movedWords = (moves: readonly RemedyMove[], count: number, how: (move: RemedyMove) => string): string => {
  const said = moves.map(({ of, ...move }) => how({ of: of.toLowerCase(), ...move })).join(', ');
  return count > moves.length ? `${said} and ${count - moves.length} more` : said;
};

const added = ({ moves = [], mass, of, count }: RemedyNamed): string => {
  if (of !== null) return `Add ${mass ?? 'some'} ${of}`;
  return moves.length === 0 ? `Add to ${count} of them` : `Add ${movedWords(moves, count, (move) => `${move.mass} ${move.of}`)}`;
};

const changed = ({ moves = [], taken = null, count }: RemedyNamed): string => {
  const all = movedWords(moves, count, ({ mass, of, less }) => `${mass} ${less ? 'less' : 'more'} ${of}`);
  if (taken === null) return moves.length === 0 ? `Change ${count} weights` : `Use ${all}`;
  return `Take ${taken} out${moves.length === 0 ? '' : `, use ${all}`}`;
};

const NAMES: { readonly [K in RemedyKind]: (named: RemedyNamed) => string } = {
  'carry-on': () => 'Carry on',
  'lift-out': ({ mass }) => (mass === null ? 'Lift some out' : `Lift ${mass} out`),
  'back-to-bottle': ({ mass }) => (mass === null ? 'Back to the bottle' : `${mass} back to the bottle`),
  'take-out': ({ mass }) => (mass === null ? 'Take some out' : `Take ${mass} out`),
  'finish-pour': () => 'Finish the pour',
  'pour-again': () => 'Pour again what was lost',
  'use-less': ({ mass, of }) => `Use ${mass ?? 'some'} less ${of ?? ''}`.trim(),
  'use-more': ({ mass, of }) => `Use ${mass ?? 'some'} more ${of ?? ''}`.trim(),
  add: added,
  'least-change': changed,
  scale: () => 'Scale the batch',
  scoop: ({ mass }) => (mass === null ? 'Scoop some out' : `Scoop ${mass} out`),
  'pour-off': ({ mass }) => (mass === null ? 'Pour some off' : `Pour ${mass} off`),
  split: () => 'Split into two',
  stop: () => 'Stop',
};

/** The name of a way out, the same on its card, aloud and in the story; never blank. */
export const remedyName = (kind: string, named: RemedyNamed): string => {
  const name = (NAMES as Readonly<Record<string, (named: RemedyNamed) => string>>)[kind];
  if (name === undefined) return kind === '' ? 'not stated' : kind.replaceAll('-', ' ');
  return name({ ...named, of: named.of?.toLowerCase() ?? null });
};

/** "6.1 %, ±2.3": from a value and its 95 % ends, all as texts of a share. */
export const aboutWords = (value: string, half: string): string => `${value}, ±${half.replace(/\s*%$/, '')}`;

/** Why a way out cannot be taken, in few words. */
export const whyNotWords: Readonly<Record<string, string>> = {
  'lye-heavy': 'lye-heavy: never',
  'outside-limit': 'leaves the formula’s limits',
  mixed: 'mixed: others go too',
  'no-solution': 'no weights keep every limit',
  'not-computed': 'this plan was typed, not worked out',
  'not-solved': 'could not be worked out',
};

/** A limit that is crossed, of which oil and by how much: "too much of olive oil by 2.4 %". */
export const clashWords = (limit: RemedyClash['limit'], of: string | null, by: string): string => {
  const text = of === null ? limitWords[limit] : limitWords[limit].replace('one oil', of.toLowerCase());
  return limit === 'stock' && of !== null ? `not enough ${of.toLowerCase()}: ${by} missing` : `${text} by ${by}`;
};

/** Limits of a formula, of the vessels and of the scales, as what it is to cross them. */
export const limitWords = {
  'superfat-zero': 'lye-heavy',
  'superfat-least': 'superfat too low',
  'superfat-most': 'superfat too high',
  'lye-weakest': 'lye too weak',
  'lye-strongest': 'lye too strong',
  'lye-dissolves': 'more than dissolves',
  'share-least': 'too little of one oil',
  'share-most': 'too much of one oil',
  fragrance: 'too much fragrance',
  'alkali-split-least': 'too little of one alkali',
  'alkali-split-most': 'too much of one alkali',
  moulds: 'moulds too small',
  brim: 'over the brim',
  'scale-capacity': 'too heavy for the scale',
  stock: 'not enough stock',
  'smallest-weight': 'too little for the scale',
} satisfies Record<RemedyClash['limit'], string>;
