import type { EntryId, InstrumentId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';

/** How a mould is poured, as the trade says it. Read as words with its dashes taken for spaces. */
export const PATTERNS = ['plain-pour', 'in-the-pot-swirl', 'drop-swirl', 'hanger-swirl', 'layers', 'other-pattern'] as const;
export type Pattern = (typeof PATTERNS)[number];

/** Where batter is poured from: the pot it was joined in, or the jug of a part. */
export type Source = 'pot' | `part:${string}`;
/** What batter is poured into and weighed in. */
export type Container = `part:${string}` | `mould:${number}`;

/** One mould of a batch as its plan has it. */
export interface PlanMould {
  /** From 1: its mark is the batch's, a stroke and this. */
  readonly n: number;
  /** Id of the mould in the workshop. */
  readonly mould: string;
  readonly name: string;
  /** To the brim, whole millilitres. */
  readonly brimMl: number | null;
  /** Planned to go in. */
  readonly mass: Milligrams | null;
  /** `null`: named at the bench before joining. */
  readonly pattern: Pattern | null;
}

/** A part of the batter that leaves the pot for a jug of its own; what is left in the pot is the plain rest. */
export interface PlanPart {
  readonly id: string;
  readonly name: string;
  /** Millionths of the batter that nothing of a part's own is in. */
  readonly ppm: number;
}

/** What can be wrong with batter once it is joined. */
export const BATTER_WRONGS = ['false-trace', 'ricing', 'seizing', 'separating'] as const;
export type BatterWrong = (typeof BATTER_WRONGS)[number];

/** What a photograph, taken once the gloves are off, is to show. */
export const PHOTO_SUBJECTS = ['top', 'pattern', 'batter', 'wrong'] as const;
export type PhotoSubject = (typeof PHOTO_SUBJECTS)[number];

interface Amount {
  readonly entry: EntryId;
  readonly mass: Milligrams;
  /** A person stated its mass; else a scale told it. */
  readonly byHand: boolean;
  readonly struck: EntryId | null;
}

export interface PartMade extends Amount {
  readonly id: string;
  readonly name: string;
}

/** So much came into a mould, from one source or, by turns, from several. */
export interface MouldPour extends Amount {
  readonly mould: number;
  readonly from: readonly Source[];
  /** `gain`: by what stood on the pan under the mould. `loss`: by what its jug lost. */
  readonly by: 'gain' | 'loss' | 'by-hand';
}

/** What stayed behind in the pot or in a jug. */
export interface LeftOver extends Amount {
  readonly of: Source;
}

/** Everything between trace and closing that is about parts and moulds. */
export interface PourState {
  /** Something is wrong with the batter: `which` until a person has said what, then that, until trace is marked anew or patterns are dropped. */
  readonly trouble: 'which' | BatterWrong | null;
  readonly patterns: Readonly<Record<number, Pattern>>;
  /** Jugs and moulds as they stood empty on a scale. */
  readonly set: Readonly<Partial<Record<Container, { readonly instrument: InstrumentId; readonly gross: Milligrams }>>>;
  readonly parts: readonly PartMade[];
  readonly pours: readonly MouldPour[];
  readonly left: readonly LeftOver[];
  readonly wrongs: readonly { readonly entry: EntryId; readonly what: BatterWrong; readonly wall: number }[];
  readonly photos: readonly { readonly entry: EntryId; readonly of: PhotoSubject; readonly mould: number | null; readonly wall: number }[];
}

export const NOTHING_POURED: PourState = { trouble: null, patterns: {}, set: {}, parts: [], pours: [], left: [], wrongs: [], photos: [] };

export const partSource = (id: string): Source & Container => `part:${id}`;
export const mouldContainer = (n: number): Container => `mould:${n}`;

/** Those that were not crossed out. */
export const standing = <T extends { readonly struck: EntryId | null }>(all: readonly T[]): readonly T[] =>
  all.filter(({ struck }) => struck === null);

/** One thing to do with joined batter: part some off, fill a mould, weigh what stayed behind. */
export type JobKey = Container | `left:${Source}`;
