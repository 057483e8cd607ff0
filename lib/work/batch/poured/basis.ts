import type { InstrumentId, LineId, LotId, MaterialId } from '#lib/units/id';
import type { Milligrams } from '#lib/units/mass';
import type { ScaleRole } from '#lib/measure/instrument';

/**
 * What a batch freezes of its chemistry, so that it can be worked out as poured whatever the catalogue says later. Numbers are decimal
 * text: a sealed line holds no fractions. Masses in grams of one gram of the line, shares and purities as fractions.
 */
export interface PouredBasis {
  readonly beliefs: readonly BeliefBasis[];
  readonly lines: readonly LineBasis[];
  readonly sizing: SizingBasis | null;
  readonly limits: {
    readonly superfat: Band;
    readonly lye: Band;
    readonly shares: readonly { readonly line: LineId; readonly low: string; readonly high: string }[];
  };
  readonly scales: readonly ScaleBasis[];
}

type Band = readonly [low: string, high: string];

/** How a value is believed: `u` of a certificate, of fatty acids, of a label; ends of a range. */
export interface BelievedBasis {
  readonly kind: 'certificate' | 'profile' | 'range' | 'label';
  readonly value: string;
  readonly u?: string;
  readonly low?: string;
  readonly high?: string;
}

export interface BeliefBasis extends BelievedBasis {
  readonly of: 'sv' | 'purity';
  readonly material: string;
  readonly name: string;
  /** Mark of the lot it is of; `null` without one. */
  readonly lot: string | null;
  /** What is believed of the material when it is of another lot; absent where nobody can say. */
  readonly otherwise?: BelievedBasis;
}

export interface LineBasis {
  readonly line: LineId;
  readonly material: MaterialId;
  /** The lot it was computed for. */
  readonly lot: LotId | null;
  readonly part: 'fat' | 'alkali' | 'liquid' | 'acid' | 'fragrance' | 'extra';
  readonly inLye: boolean;
  /** Of a fragrance, by its certificate. */
  readonly limit: string | null;
  readonly fats: readonly {
    readonly belief: number;
    readonly mass: string;
    readonly kind: 'triglyceride' | 'wax' | 'free-acid';
    readonly acidValue: string;
    readonly unsaponifiable: string;
    readonly density: string;
    readonly celsius: string;
  }[];
  readonly alkalis: readonly {
    readonly belief: number;
    readonly mass: string;
    readonly kind: 'NaOH' | 'KOH';
    readonly restIsWater: string | null;
  }[];
  readonly acids: readonly {
    readonly mass: string;
    readonly strength: string;
    readonly molesPerGram: string;
    readonly crystalWater: string;
  }[];
  readonly water: string;
  readonly inert: readonly { readonly mass: string; readonly density: string; readonly u: string }[];
}

/** cm³, grams, °C. */
export interface SizingBasis {
  readonly pourAt: string;
  readonly residue: string;
  readonly pourLoss: string;
  readonly calibration: { readonly factor: string; readonly u: string } | null;
  readonly brim: { readonly value: string; readonly u: string } | null;
}

/** A scale of the bench as it was set up when the batch was planned. */
export interface ScaleBasis {
  readonly instrument: InstrumentId;
  readonly role: ScaleRole;
  /** Gross. */
  readonly capacity: Milligrams | null;
  readonly division: Milligrams | null;
  /** Standard deviation of a weighing, mg; `null`: never measured, its division stands for it. */
  readonly repeatability: string | null;
}
