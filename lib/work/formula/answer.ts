import type { Estimate } from '#lib/soap/source';
import type { SuperfatInterval } from '#lib/soap/superfat-interval';
import type { LineId, VesselId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import type { Plan } from '../batch/plan';
import type { Derivation } from './derivation';
import type { Problem } from './problem';
import type { Warning } from './warning';

/** What `planOf` says. With problems there is no plan, and nothing was guessed. */
export type PlanAnswer = Planned | { readonly kind: 'problems'; readonly problems: readonly Problem[] };

export interface Planned {
  readonly kind: 'plan';
  /** What the bench runs; `plan.basis` holds every value it was computed with. */
  readonly plan: Plan;
  /** Sum of the plan's lines, mg. */
  readonly total: Milligrams;
  readonly figures: PlanFigures;
  readonly lines: readonly LineFigures[];
  /** `null` where a volume is not known (`volume-unknown` says why). */
  readonly sizing: Sizing | null;
  readonly steps: readonly WorkStep[];
  /** Seconds, by the maker's own pace; `null` without one. */
  readonly time: { readonly seconds: number; readonly how: 'typed' | 'measured' } | null;
  readonly warnings: readonly Warning[];
  readonly derivations: readonly Derivation[];
  /** No warning of level `must` stands against starting. */
  readonly mayStart: boolean;
}

/** The batch as computed from unrounded masses. Masses in grams, shares and superfat as fractions. */
export interface PlanFigures {
  readonly fats: number;
  readonly batter: number;
  readonly superfat: SuperfatFigures;
  /** Pure alkali in the whole solution. */
  readonly lyeConcentration: number;
  /** Hydroxide in hydroxide and water: what the lye tables go by. */
  readonly lyeStrength: { readonly naoh: number; readonly koh: number };
  /** By moles. */
  readonly naohShare: number;
  readonly alkaliMoles: number;
  readonly fatDemandMoles: number;
  readonly acidDemandMoles: number;
  /** Water in the batter before and after the reaction. */
  readonly waterBefore: number;
  readonly waterAfter: number;
  readonly soap: number;
  readonly glycerol: number;
  readonly freeFat: number;
  /** Of the fats together, where every profile is known; else `null`. g I₂/100 g and fractions. */
  readonly iodine: number | null;
  readonly linoleicAndLinolenic: number | null;
  /** °C if no heat left the jug; `null` where it is not known. */
  readonly mixingPeak: Estimate | null;
  readonly fragrance: FragranceFigures;
}

/** The doubt about the superfat without what it is made of: the derivation shows that. */
export type SuperfatFigures = Omit<SuperfatInterval, 'parts'>;

export interface FragranceFigures {
  /** Grams of the bars at the lowest mass they may dry to: all water gone. */
  readonly driest: number;
  readonly verdict:
    | { readonly kind: 'within' | 'over'; readonly sum: number; readonly most: number }
    | { readonly kind: 'not-known'; readonly without: readonly string[] };
  /** Fractions of the driest bar, strongest first; `declared` above the rinse-off threshold. */
  readonly allergens: readonly { readonly name: string; readonly share: number; readonly declared: boolean }[];
}

/** One line of the plan, with what the sheet shows beside it. */
export interface LineFigures {
  readonly line: LineId;
  /** Entry of the formula it serves. */
  readonly entry: string;
  /** Unrounded grams. */
  readonly grams: number;
  /** Fraction of its own whole (fats, liquid, blend; alkali by moles) and of the batter. */
  readonly shareOfPart: number;
  readonly shareOfBatter: number;
  /** Change of superfat, as a fraction, for one gram more. */
  readonly superfatPerGram: number;
  /** Why its tolerance is what it is. */
  readonly tolerance: {
    readonly wanted: Milligrams;
    readonly by: 'superfat' | 'lye' | 'fragrance-limit' | 'share' | 'scale';
  };
  readonly scale: ScaleService;
  /** How it is weighed in parts; one entry when in one go. Sum is the target. */
  readonly pours: readonly Milligrams[];
}

/** Whether the assigned scale can serve a line. */
export interface ScaleService {
  readonly scale: string | null;
  readonly serves: boolean;
  /** Least this scale can weigh within the line's tolerance: 2·max(s, 0.41 d) ÷ (tolerance ÷ target), USP <41>'s form; `null` unknown. */
  readonly smallest: Milligrams | null;
  /** The same at USP <41>'s own 0.10 %: shown, not the gate. */
  readonly smallestUsp: Milligrams | null;
  /** The permissible error of OIML R 76 at this load for a class III scale of this division in service: a comparison, no claim. mg. */
  readonly r76: Milligrams | null;
  /** Names of scales that could; with none, the division that would be needed. */
  readonly couldServe: readonly string[];
  readonly neededDivision: Milligrams | null;
  readonly neverChecked: boolean;
}

/** Volumes in cm³, masses in grams. */
export interface Sizing {
  /** At pouring temperature, calibration included, before losses. */
  readonly batter: Estimate;
  readonly pourAt: number;
  readonly density: number;
  readonly residue: number;
  readonly pourLoss: number;
  /** What reaches the moulds. */
  readonly toPour: Estimate;
  readonly calibration: { readonly factor: number; readonly batches: number } | null;
  readonly moulds: readonly MouldFill[];
  /**
   * The trade's loaf rule beside it, for the rectangular moulds as full as wished: their cm³, the grams of fats it would put there, those of
   * this plan that go there, and by what fraction they differ.
   */
  readonly loafRule: {
    readonly volume: number;
    readonly fats: number;
    readonly here: number;
    readonly against: number;
    readonly source: string;
  } | null;
}

export interface MouldFill {
  readonly mould: string;
  readonly name: string;
  readonly count: number;
  /** One mould, to the brim. */
  readonly brim: Estimate;
  /** What goes into one. */
  readonly batter: number;
  readonly grams: number;
  /** Fraction of the brim, with its standard uncertainty. */
  readonly full: number;
  readonly u: number;
  /** mm, where the shape has one depth and straight walls; how much of it is left above the batter. */
  readonly depth: number | null;
  readonly leftAbove: number | null;
  /** What was measured of it, as a product: "250 × 64 × 95 mm"; empty where there is none. */
  readonly sides: string;
  readonly verdict: 'fits' | 'over' | 'under' | 'may-over';
}

/** How the hard fats are melted by themselves, °C: common practice, no source. Names of materials, the hardest first. */
export interface MeltStep {
  readonly order: readonly string[];
  readonly heatTo: number;
  /** The pot once the liquid oils are in, straight from there; what may begin to set in it then. */
  readonly afterwards: number;
  readonly maySet: readonly string[];
  /** What the hard fats must be as the rest goes in for the pot to be in the middle of the window; `null`: hotter than fats are taken. */
  readonly pourAt: number | null;
  readonly wished: number;
  /** Below this a fat of it may begin to set: as the maker says, else where the hardest that counts is melted through; `null`: none does. */
  readonly setsBelow: number | null;
}

/** A thing to do that is no weighing, or the weighing of a line, in order. Codes; words are the screen's. */
export type WorkStep =
  | { readonly kind: 'protect'; readonly items: readonly string[] }
  | { readonly kind: 'weigh'; readonly line: LineId; readonly vessel: VesselId; readonly pours: number }
  /** Out of its cup into the liquid, before any hydroxide. */
  | { readonly kind: 'stir-in'; readonly line: LineId; readonly into: VesselId }
  | { readonly kind: 'melt'; readonly vessel: VesselId; readonly above: number | null; readonly how: MeltStep | null }
  | { readonly kind: 'confirm-cold'; readonly vessel: VesselId; readonly celsius: number }
  | {
      readonly kind: 'dissolve';
      readonly vessel: VesselId;
      readonly into: VesselId;
      readonly peak: number | null;
      readonly slowly: boolean;
    }
  | { readonly kind: 'meet'; readonly low: number; readonly high: number; readonly apart: number }
  | { readonly kind: 'join'; readonly vessel: VesselId }
  | { readonly kind: 'pour'; readonly moulds: readonly string[] };
