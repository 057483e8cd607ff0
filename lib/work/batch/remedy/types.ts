import type { LineId, VesselId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import type { Share } from '../share';
import type { RemedyClash, RemedyLimit } from './limits';

/**
 * Remedies as cards. Everything in a card is a whole number or a string, so that the record can keep it as it was shown: masses in mg,
 * volumes in ml, fractions in millionths (`ppm`: superfat 5 % is 50 000).
 */

/**
 * Named for what to do. `use-less`, `use-more`: one line still to come changes, nothing else. `add`: only lines already in get more.
 * `least-change`: the least of everything, where it is more than one of these.
 */
export type RemedyKind =
  | 'carry-on'
  | 'lift-out'
  | 'back-to-bottle'
  | 'take-out'
  | 'finish-pour'
  | 'pour-again' // what a spill took
  | 'use-less'
  | 'use-more'
  | 'add'
  | 'least-change'
  | 'scale'
  | 'scoop'
  | 'pour-off'
  | 'split'
  | 'stop';

/** Something to do by hand besides pouring. What leaves is weighed: by the loss of its vessel. */
export type RemedyAct =
  /** Of one line only: a solid lump, oil in its own jug, what stands in its own cup. `to` as the entry `withdrawn` has it. */
  | {
      readonly kind: 'lift-out' | 'back-to-bottle' | 'take-out';
      readonly line: LineId;
      readonly vessel: VesselId;
      readonly mass: Milligrams;
      readonly to: 'bottle' | 'waste' | 'other-vessel';
      /** Goes into a labelled container for caustic waste, never back to the stock. */
      readonly caustic: boolean;
    }
  /** A fraction of all that is in a vessel: its mixture stays as it is. `split-off`: kept, as a batch of its own. */
  | {
      readonly kind: 'scoop' | 'pour-off' | 'split-off';
      readonly vessel: VesselId;
      readonly mass: Milligrams;
      readonly ppm: number;
      readonly shares: readonly Share[];
      readonly to: 'waste' | 'other-vessel';
      readonly caustic: boolean;
    }
  /** What still lies in the jug goes where it belongs. `vessel`: the jug. */
  | { readonly kind: 'finish-pour'; readonly line: LineId; readonly vessel: VesselId; readonly mass: Milligrams }
  /** What still lies in a jug though the record has it in `vessel` stays out, weighed back. */
  | { readonly kind: 'leave'; readonly line: LineId; readonly vessel: VesselId; readonly mass: Milligrams };

/** `cooled-lye`: more hydroxide goes into cooled lye only, behind its gate. `melted`: a fat that goes into a warm or joined pot. */
export type RemedyNeed = 'cooled-lye' | 'hydroxide-gate' | 'melted';

/** A line as it stands after the remedy. Absolute, so that a plan is replanned with it as it is. */
export interface RemedyLine {
  readonly line: LineId;
  readonly target: Milligrams;
  readonly tolerance: Milligrams;
  /** Greatest weight that keeps every result inside the limits, all else as in this card; `null` where that is not known. */
  readonly upper: Milligrams | null;
  /** To pour still, after the acts: target less what was poured by then. Above zero for a line that is closed: it is opened again. */
  readonly pour: Milligrams;
  /** Target less the target until now. */
  readonly change: number;
  readonly needs: readonly RemedyNeed[];
}

/** Of superfat: 95 in 100, in ppm. */
interface RemedySuperfat {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** What the batch will be, all still to come at its new target. `null`: nobody can say. */
export interface RemedyFigures {
  readonly superfat: RemedySuperfat | null;
  /** Chance that some alkali is left over, ppm. */
  readonly lyeHeavy: number | null;
  /** Pure alkali of the whole solution, ppm. */
  readonly lye: number | null;
  /** Σ cᵢ/Lᵢ, ppm: at most 1 000 000. `null` too where a certificate is missing. */
  readonly fragrance: number | null;
  readonly shares: readonly { readonly line: LineId; readonly ppm: number }[];
  readonly fats: Milligrams;
  readonly batter: Milligrams;
  readonly batterMl: number | null;
  /** Batter that goes into the moulds over what they hold, ppm. */
  readonly full: number | null;
}

/** Why a card comes first. */
export type RemedyWhy =
  | 'inside-every-limit' // carrying on keeps the formula's limits
  | 'still-solid' // nothing is mixed yet: what is lifted out was never in
  | 'in-its-own-vessel' // nothing else is touched
  | 'finish-what-was-begun'
  | 'back-to-plan' // what was lost comes in again: the batch is as it was
  | 'not-worked-out' // its plan does not say what its lines do, and nothing can go back
  | 'least-change' // keeps every limit with the least
  | 'only-way' // every other way leaves a limit
  | 'safe-though-outside' // none keeps every limit; this one is not lye-heavy, whatever its values are off by
  | 'least-doubtful' // each may be lye-heavy: this one least likely
  | 'nothing-else'; // to stop, where no way can be taken

/** Why a card cannot be taken. */
export type RemedyWhyNot =
  | 'lye-heavy'
  | 'outside-limit'
  | 'mixed' // a scoop would take the other lines too
  | 'no-solution'
  | 'not-computed' // the plan does not say what its lines do
  | 'not-solved'; // the solver gave no answer

/** To be shown with a card, before it is taken. */
export type RemedyCaution =
  | 'may-be-lye-heavy' // within its 95 in 100 some alkali is left over: joining asks for a person's word
  | 'only-if-solid' // nobody knows: lifted out only while it lies there as a lump
  | 'never-back-to-stock'
  | 'caustic-waste'
  | 'cool-first'
  | 'slowly'
  | 'protect' // goggles and shield, gloves, running water
  | 'label-as-own-batch'
  | 'outside-formula' // carrying on keeps it safe, not as the formula wants it: recorded as loosened
  | 'stock-not-known'
  | 'not-worked-out' // nobody knows what it does
  | 'stop-safely'; // leave nothing alone, label, local rules for caustic waste

export interface RemedyCard {
  /** Steady within an answer. */
  readonly id: string;
  readonly kind: RemedyKind;
  /** For the card's words: `line`, `mass` (mg), `vessel`, `count` of additions, `factor` (ppm of a scaling). */
  readonly params: Readonly<Record<string, string | number>>;
  /** Exactly one card of an answer is recommended. */
  readonly recommended: { readonly why: RemedyWhy; readonly params: Readonly<Record<string, string | number>> } | null;
  /** A choice is held, never tapped. */
  readonly held: boolean;
  readonly enabled: boolean;
  readonly whyNot: { readonly code: RemedyWhyNot; readonly clashes: readonly RemedyClash[] } | null;
  /** Entered after the lines: what leaves is not to make a line fall short of a target that moves with it. */
  readonly acts: readonly RemedyAct[];
  /** Every line whose target, tolerance or upper moves, in the order of work. */
  readonly lines: readonly RemedyLine[];
  /** Σ |final − reference|. */
  readonly change: Milligrams;
  /** Poured beyond what was planned, and taken out. */
  readonly added: Milligrams;
  readonly taken: Milligrams;
  readonly figures: RemedyFigures | null;
  /** Limits of the formula it does not keep: only of `carry-on`, and never `superfat-zero`. */
  readonly leaves: readonly RemedyClash[];
  readonly cautions: readonly RemedyCaution[];
  /** Of a split: what the part set aside still needs to be a batch of its own like the plan. */
  readonly ownBatch?: readonly Share[];
}

/** The answer to a question. Never more than five cards, the recommended first, `stop` last and always there. */
export interface RemedyAnswer {
  /** Of the batch it was worked out for: to another one it says nothing. */
  readonly version: number;
  readonly cards: readonly RemedyCard[];
  /** No change of masses keeps all limits: these clash, each with the least it would have to give way. Empty where one does. */
  readonly clashes: readonly RemedyClash[];
  /** `false`: it could not be worked out, in time or at all; carrying on and stopping remain. */
  readonly solved: boolean;
}

/** Why a card may not be taken now. A code with parameters; words are the screen's. */
export interface RemedyRefusal {
  readonly code:
    'moved-on' | 'not-offered' | 'no-such' | 'bad-number' | 'lye-heavy' | 'outside-limit' | 'no-stock' | 'scale' | 'not-as-shown';
  readonly params: Readonly<Record<string, string | number>>;
}

export type { RemedyClash, RemedyLimit };
